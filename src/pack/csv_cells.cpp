// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/csv_cells.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include "base/decimal_comma.hpp"
#include "base/markup.hpp"
#include "base/words.hpp"
#include "bleach/dilution.hpp"
#include "fogproof/base/error.hpp"
#include "pack/grade_words.hpp"

namespace fogproof::pack {
namespace {

constexpr std::size_t kLongestLabel = 200;  // bytes
constexpr std::size_t kMostColumns = 100;   // no need of so many: faults of each are told

// Spreadsheets of half the world write semicolons between columns, and then decimal commas.
void refuse_other_separators(const CsvRow& head, std::span<const std::string> names,
                             const std::string& place) {
    for (const auto& [separator, word] : {std::pair{';', "semicolons"}, {'\t', "tabs"}})
        for (const auto& part :
             head.cells.size() == 1 ? split(head.cells.front(), separator) : std::vector<std::string>{})
            if (part.size() < head.cells.front().size() &&
                std::ranges::find(names, trimmed(part)) != names.end())
                throw Error(Fault::data, place + ":" + std::to_string(head.line),
                            std::string(word) + " between the columns",
                            "commas between columns, and points in numbers: 0.35");
}

// A pack, a recipe or a letter: none of its words names a column, or nearly.
void refuse_no_table(const CsvRow& head, std::span<const std::string> names, const std::string& place) {
    if (std::ranges::none_of(head.cells, [&](const std::string& cell) {
            return nearest_word(trimmed(cell), names).has_value();
        }))
        throw Error(Fault::data, place + ":" + std::to_string(head.line),
                    shown_cell(head.cells.front()) + " names no column", listed(names));
}

// A cell more for each decimal comma: "0,1" became "0" and "1".
bool is_split_by_commas(const CsvRow& row, std::size_t columns) {
    const auto is_whole = [](const std::string& cell) {
        const auto text = trimmed(cell);
        return !text.empty() && text.find_first_not_of("-0123456789") == std::string_view::npos;
    };
    return row.cells.size() > columns &&
           std::ranges::adjacent_find(row.cells, [&](const auto& a, const auto& b) {
               return is_whole(a) && is_whole(b);
           }) != row.cells.end();
}

// "8s", "1/4 stop": a number and a unit, or two numbers.
bool holds_digit(const std::string& cell) {
    return cell.find_first_of("0123456789") != std::string::npos;
}

// Some instruments show densities without their point: 174 for 1.74.
bool is_in_hundredths(const ReadingColumn& column, double value) {
    return std::string_view(column.unit) == "D" && value > column.maximum && value == std::floor(value) &&
           value / 100 <= column.maximum;
}

}  // namespace

void CsvFaults::add(int line, const std::string& found, const std::string& allowed) {
    told_.push_back({line, found, allowed, 0, {}});
}

void CsvFaults::add_habit(int line, const std::string& found, const std::string& allowed, const char* habit) {
    const auto same = std::ranges::find_if(told_, [&](const Told& told) { return told.habit == habit; });
    if (same == told_.end())
        told_.push_back({line, found, allowed, 0, habit});
    else if (same->line != line)
        ++same->more;
}

void CsvFaults::refuse() const {
    std::string text;
    for (const Told& told : told_) {
        text += (text.empty() ? "" : "\n") + plain_line(place_) + ":" + std::to_string(told.line) + ": " +
                told.found;
        if (told.more > 0)
            text += ", and the same in " + std::to_string(told.more) +
                    (told.more == 1 ? " more row" : " more rows");
        text += "; expected: " + told.allowed;
    }
    if (!text.empty()) throw Error(Fault::data, "", text);
}

std::string shown_cell(const std::string& cell) {
    return "\"" + plain_line(cell.substr(0, 40)) + (cell.size() > 40 ? "..." : "") + "\"";
}

std::vector<std::size_t> csv_columns(const CsvRow& head, std::span<const std::string> names,
                                     const std::string& required, const std::string& place) {
    std::vector<std::size_t> columns;
    if (head.cells.size() > kMostColumns)
        throw Error(Fault::data, place + ":" + std::to_string(head.line),
                    head.fault.empty() ? std::to_string(head.cells.size()) + " columns" : head.fault,
                    listed(names));
    refuse_other_separators(head, names, place);
    refuse_no_table(head, names, place);
    CsvFaults faults(place);
    bool may_be_required = false;
    for (const auto& cell : head.cells) {
        const std::string name(trimmed(cell));
        const auto found = std::ranges::find(names, name);
        const auto column = std::size_t(found - names.begin());
        if (found == names.end()) {
            const auto near = nearest_word(name, names);
            may_be_required |= near == required;
            faults.add(head.line, "unknown column " + shown_cell(name),
                       near ? *near + ", which is nearest" : listed(names));
        } else if (std::ranges::count(columns, column) > 0) {
            faults.add(head.line, "column " + name + " twice", "each column once");
        }
        columns.push_back(column);
    }
    if (!head.fault.empty()) faults.add(head.line, head.fault, "CSV as in RFC 4180");
    const auto needed = std::size_t(std::ranges::find(names, required) - names.begin());
    if (!may_be_required && std::ranges::find(columns, needed) == columns.end())
        faults.add(head.line, "no column " + required, "at least that one");
    faults.refuse();
    return columns;
}

bool is_whole_row(const CsvRow& row, std::size_t columns, CsvFaults& faults) {
    if (!row.fault.empty()) {
        faults.add(row.line, row.fault, "CSV as in RFC 4180");
        return false;
    }
    if (row.cells.size() == columns) return true;
    const bool commas = is_split_by_commas(row, columns);
    faults.add_habit(row.line, std::to_string(row.cells.size()) + " cells",
                     std::to_string(columns) + ", as the first line has" +
                         (commas ? "; a decimal comma splits a number in two, so write points" : ""),
                     commas                       ? "commas split"
                     : row.cells.size() > columns ? "more"
                                                  : "fewer");
    return false;
}

void take_text(std::string& into, const std::string& cell, const char* name, int line, CsvFaults& faults) {
    into = cell;
    if (cell.size() > kLongestLabel)
        faults.add(line, std::string(name) + " = " + shown_cell(cell),
                   std::to_string(kLongestLabel) + " bytes");
    else if (valid_utf8(cell) != cell)
        faults.add(line, std::string(name) + " = " + shown_cell(cell) + " is not UTF-8",
                   "text in UTF-8: save the file in that coding");
    else if (!is_plain_line(cell))
        faults.add(line, std::string(name) + " = " + shown_cell(cell),
                   "text on one line, no control characters");
}

void take_number(Reading& reading, const ReadingColumn& column, const std::string& cell, int line,
                 CsvFaults& faults) {
    const std::string name = column.name;
    const std::string allowed = name == "filter"
                                    ? std::string("a grade, 00 to 6 (-1 is 00)")
                                    : decimal(column.minimum, 2) + " to " + decimal(column.maximum, 2) +
                                          (*column.unit ? " " : "") + column.unit;
    if (cell.empty()) {
        if (column.required) faults.add(line, "no " + name, allowed);
        return;
    }
    const bool is_dilution = std::string_view(column.unit) == "parts";
    const auto value = is_dilution        ? dilution_parts(cell)
                       : name == "filter" ? grade_in(cell)
                                          : number_in(cell);
    if (const auto point = with_decimal_point(cell); !value && point)
        faults.add_habit(line, name + " = " + shown_cell(cell) + ", a decimal comma", "points: " + *point,
                         "comma");
    else if (value && is_in_hundredths(column, *value))
        faults.add_habit(line, name + " = " + shown_cell(cell),
                         allowed + "; if these are hundredths, divide them by 100: " + fixed(*value / 100, 2),
                         "hundredths");
    else if (!value && name != "filter" && !is_dilution && holds_digit(cell))
        faults.add(line, name + " = " + shown_cell(cell), allowed + ", written as a number alone");
    else if (!value || !(*value >= column.minimum && *value <= column.maximum))
        faults.add(line, name + " = " + shown_cell(cell), allowed);
    else
        column.set(reading, *value);
}

}  // namespace fogproof::pack
