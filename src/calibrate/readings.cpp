// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/calibrate/readings.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "calibrate/csv.hpp"
#include "calibrate/reading_columns.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/base/whole_file.hpp"
#include "fogproof/base/words.hpp"

namespace fogproof {
namespace {

// Far more than a lifetime of strips.
constexpr std::size_t kLargestFile = 8u << 20, kMostReadings = 20000, kLongestLabel = 200;

// Every fault of a file, so that all of them are mended in one go.
class Faults {
  public:
    explicit Faults(const std::string& place) : place_(place) {}
    void add(int line, const std::string& found, const std::string& allowed) {
        if (!text_.empty()) text_ += "\n";
        text_ += place_ + ":" + std::to_string(line) + ": " + found + "; allowed " + allowed;
    }
    void refuse() const {
        if (!text_.empty()) throw Error(Fault::data, "", text_);
    }

  private:
    const std::string& place_;
    std::string text_;
};

std::string shown(const std::string& cell) {
    std::string text;
    for (const char c : cell.substr(0, 40)) text.push_back(static_cast<unsigned char>(c) < 0x20 ? ' ' : c);
    return "\"" + text + (cell.size() > 40 ? "..." : "") + "\"";
}

// Which column of ours each cell of a row is.
std::vector<std::size_t> columns_of(const CsvRow& head, const std::string& place) {
    std::vector<std::string> names{kStripColumn};
    for (const auto& column : reading_columns()) names.emplace_back(column.name);
    std::vector<std::size_t> columns;
    Faults faults(place);
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
    if (std::ranges::find(columns, names.size() - 1) == columns.end())
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
        faults.add(row.line, std::to_string(row.cells.size()) + " cells",
                   std::to_string(columns.size()) + ", as the first line has");
        return reading;
    }
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const std::string cell(trimmed(row.cells[i]));
        if (columns[i] == 0) {
            reading.strip = cell;
            if (cell.size() > kLongestLabel)
                faults.add(row.line, "strip = " + shown(cell), std::to_string(kLongestLabel) + " bytes");
            continue;
        }
        const ReadingColumn& column = reading_columns()[columns[i] - 1];
        const std::string allowed =
            decimal(column.minimum, 2) + " to " + decimal(column.maximum, 2) + " " + column.unit;
        if (cell.empty()) {
            if (column.required) faults.add(row.line, "no " + std::string(column.name), allowed);
            continue;
        }
        const auto value = number_in(cell);
        if (!value || !(*value >= column.minimum && *value <= column.maximum))
            faults.add(row.line, std::string(column.name) + " = " + shown(cell), allowed);
        else
            column.set(reading, *value);
    }
    return reading;
}

}  // namespace

std::vector<Reading> parse_readings(std::string_view text, const std::string& place) {
    const auto rows = csv_rows(text);
    if (rows.empty())
        throw Error(Fault::data, place, "has no rows", "allowed a line of column names and readings");
    const auto columns = columns_of(rows.front(), place);
    if (rows.size() - 1 > kMostReadings)
        throw Error(Fault::data, place, std::to_string(rows.size() - 1) + " readings",
                    "allowed up to " + std::to_string(kMostReadings));
    Faults faults(place);
    std::vector<Reading> readings;
    for (std::size_t i = 1; i < rows.size(); ++i) readings.push_back(reading_in(rows[i], columns, faults));
    faults.refuse();
    if (readings.empty())
        throw Error(Fault::data, place, "has no readings", "allowed one measured patch a row");
    return readings;
}

std::vector<Reading> read_readings_file(const std::filesystem::path& path) {
    return parse_readings(read_whole(path, kLargestFile), path.string());
}

}  // namespace fogproof
