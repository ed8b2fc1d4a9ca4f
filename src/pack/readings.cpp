// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/pack/readings.hpp"

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "base/decimal_comma.hpp"
#include "base/markup.hpp"
#include "base/words.hpp"
#include "bleach/dilution.hpp"
#include "fogproof/base/error.hpp"
#include "pack/csv.hpp"
#include "pack/doubles.hpp"
#include "pack/grade_words.hpp"
#include "pack/reading_columns.hpp"
#include "system/text_file.hpp"
#include "system/whole_file.hpp"

namespace fogproof::pack {
namespace {

constexpr std::size_t kLongestLabel = 200;  // bytes
constexpr std::size_t kMostColumns = 100;   // no need of so many: faults of each are told

// Every fault of a file, so that all of them are mended in one go. A habit of the program that wrote the
// file, such as decimal commas, is told once for all its rows.
class Faults {
  public:
    explicit Faults(const std::string& place) : place_(place) {}
    void add(int line, const std::string& found, const std::string& allowed) {
        told_.push_back({line, found, allowed, 0, {}});
    }
    void add_habit(int line, const std::string& found, const std::string& allowed, const char* habit) {
        const auto same = std::ranges::find_if(told_, [&](const Told& told) { return told.habit == habit; });
        if (same == told_.end())
            told_.push_back({line, found, allowed, 0, habit});
        else if (same->line != line)
            ++same->more;
    }
    void refuse() const {
        std::string text;
        for (const Told& told : told_) {
            text += (text.empty() ? "" : "\n") + plain_line(place_) + ":" + std::to_string(told.line) + ": " +
                    told.found;
            if (told.more > 0)
                text += ", and the same in " + std::to_string(told.more) +
                        (told.more == 1 ? " more row" : " more rows");
            text += "; allowed " + told.allowed;
        }
        if (!text.empty()) throw Error(Fault::data, "", text);
    }

  private:
    struct Told {
        int line;
        std::string found, allowed;
        int more;  ///< rows
        std::string habit;
    };
    const std::string& place_;
    std::vector<Told> told_;
};

std::string shown(const std::string& cell) {
    return "\"" + plain_line(cell.substr(0, 40)) + (cell.size() > 40 ? "..." : "") + "\"";
}

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
                            "allowed commas between columns, and points in numbers: 0.35");
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

// A text cell as it may stand in a pack's file.
void take_text(std::string& into, const std::string& cell, const char* name, int line, Faults& faults) {
    into = cell;
    if (cell.size() > kLongestLabel)
        faults.add(line, std::string(name) + " = " + shown(cell), std::to_string(kLongestLabel) + " bytes");
    else if (valid_utf8(cell) != cell)
        faults.add(line, std::string(name) + " = " + shown(cell) + " is not UTF-8",
                   "text in UTF-8: save the file in that coding");
    else if (!is_plain_line(cell))
        faults.add(line, std::string(name) + " = " + shown(cell), "text on one line, no control characters");
}

// Which column of ours each cell of a row is.
std::vector<std::size_t> columns_of(const CsvRow& head, const std::string& place) {
    std::vector<std::string> names{kStripColumn};
    for (const auto& column : reading_columns()) names.emplace_back(column.name);
    std::vector<std::size_t> columns;
    if (head.cells.size() > kMostColumns)
        throw Error(Fault::data, place + ":" + std::to_string(head.line),
                    head.fault.empty() ? std::to_string(head.cells.size()) + " columns" : head.fault,
                    "allowed " + listed(names));
    Faults faults(place);
    refuse_other_separators(head, names, place);
    for (const auto& cell : head.cells) {
        const std::string name(trimmed(cell));
        const auto found = std::ranges::find(names, name);
        const auto column = std::size_t(found - names.begin());
        if (found == names.end()) {
            const auto near = nearest_word(name, names);
            faults.add(head.line, "unknown column " + shown(name),
                       near ? *near + ", which is nearest" : listed(names));
        } else if (std::ranges::count(columns, column) > 0) {
            faults.add(head.line, "column " + name + " twice", "each column once");
        }
        columns.push_back(column);
    }
    if (!head.fault.empty()) faults.add(head.line, head.fault, "CSV as in RFC 4180");
    const auto density = std::size_t(std::ranges::find(names, "density") - names.begin());
    if (std::ranges::find(columns, density) == columns.end())
        faults.add(head.line, "no column density", "at least that one");
    faults.refuse();
    return columns;
}

Reading reading_in(const CsvRow& row, const std::vector<std::size_t>& columns, Faults& faults) {
    Reading reading;
    reading.line = row.line;
    if (!row.fault.empty()) {
        faults.add(row.line, row.fault, "CSV as in RFC 4180");
        return reading;
    }
    if (row.cells.size() != columns.size()) {
        const bool commas = is_split_by_commas(row, columns.size());
        faults.add_habit(row.line, std::to_string(row.cells.size()) + " cells",
                         std::to_string(columns.size()) + ", as the first line has" +
                             (commas ? "; a decimal comma splits a number in two, so write points" : ""),
                         commas                              ? "commas split"
                         : row.cells.size() > columns.size() ? "more"
                                                             : "fewer");
        return reading;
    }
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const std::string cell(trimmed(row.cells[i]));
        if (columns[i] == 0) {
            take_text(reading.strip, cell, kStripColumn, row.line, faults);
            continue;
        }
        const ReadingColumn& column = reading_columns()[columns[i] - 1];
        if (column.text) {
            take_text(reading.*column.text, cell, column.name, row.line, faults);
            continue;
        }
        const std::string allowed =
            decimal(column.minimum, 2) + " to " + decimal(column.maximum, 2) + " " + column.unit;
        if (cell.empty()) {
            if (column.required) faults.add(row.line, "no " + std::string(column.name), allowed);
            continue;
        }
        const bool is_dilution = std::string_view(column.unit) == "parts";
        const bool is_filter = std::string_view(column.name) == "filter";
        const auto value = is_dilution ? dilution_parts(cell) : is_filter ? grade_in(cell) : number_in(cell);
        if (const auto point = with_decimal_point(cell); !value && point)
            faults.add_habit(row.line, std::string(column.name) + " = " + shown(cell) + ", a decimal comma",
                             "points: " + *point, "comma");
        else if (!value || !(*value >= column.minimum && *value <= column.maximum))
            faults.add(row.line, std::string(column.name) + " = " + shown(cell), allowed);
        else
            column.set(reading, *value);
    }
    return reading;
}

[[noreturn]] void refuse_too_many(std::size_t count, const std::string& place) {
    throw Error(Fault::data, place, std::to_string(count) + " readings",
                "allowed up to " + std::to_string(kMostReadings));
}

// A line of column names that comes again, as where files were joined; no row can look like it.
bool is_head(const CsvRow& row) {
    return row.fault.empty() &&
           std::ranges::any_of(row.cells, [](const auto& cell) { return trimmed(cell) == "density"; }) &&
           std::ranges::all_of(row.cells, [](const auto& cell) {
               return trimmed(cell) == kStripColumn ||
                      std::ranges::any_of(reading_columns(), [&](const ReadingColumn& column) {
                          return trimmed(cell) == column.name;
                      });
           });
}

}  // namespace

std::vector<Reading> parse_readings(std::string_view text, const std::string& place) {
    const auto rows = csv_rows(text);
    if (rows.empty())
        throw Error(Fault::data, place, "has no rows", "allowed a line of column names and readings");
    auto columns = columns_of(rows.front(), place);
    if (rows.size() - 1 > 2 * kMostReadings) refuse_too_many(rows.size() - 1, place);
    Faults faults(place);
    std::vector<Reading> readings;
    for (std::size_t i = 1; i < rows.size(); ++i)
        if (is_head(rows[i]))
            columns = columns_of(rows[i], place);
        else
            readings.push_back(reading_in(rows[i], columns, faults));
    faults.refuse();
    if (readings.size() > kMostReadings) refuse_too_many(readings.size(), place);
    if (readings.empty())
        throw Error(Fault::data, place, "has no readings", "allowed one measured patch a row");
    refuse_doubles({readings, place});
    return readings;
}

std::vector<Reading> read_readings_file(const std::filesystem::path& path) {
    return parse_readings(read_text(path, kLargestReadingsFile, kReadingsWanted), path.string());
}

}  // namespace fogproof::pack
