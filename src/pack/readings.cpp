// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/pack/readings.hpp"

#include <algorithm>

#include "base/markup.hpp"
#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/csv.hpp"
#include "pack/csv_cells.hpp"
#include "pack/doubles.hpp"
#include "pack/reading_columns.hpp"
#include "system/text_file.hpp"

namespace fogproof::pack {
namespace {

// Which column of ours each cell of a row is.
std::vector<std::size_t> columns_of(const CsvRow& head, const std::string& place) {
    std::vector<std::string> names{kStripColumn};
    for (const auto& column : reading_columns()) names.emplace_back(column.name);
    return csv_columns(head, names, "density", place);
}

Reading reading_in(const CsvRow& row, const std::vector<std::size_t>& columns, Reading reading,
                   CsvFaults& faults) {
    reading.line = row.line;
    if (!is_whole_row(row, columns.size(), faults)) return reading;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const std::string cell(trimmed(row.cells[i]));
        const ReadingColumn* column = columns[i] == 0 ? nullptr : &reading_columns()[columns[i] - 1];
        if (column && !column->text)
            take_number(reading, *column, cell, row.line, faults);
        else if (!cell.empty())
            take_text(column ? reading.*column->text : reading.strip, cell,
                      column ? column->name : kStripColumn, row.line, faults);
    }
    return reading;
}

[[noreturn]] void refuse_too_many(std::size_t count, const std::string& place) {
    throw Error(Fault::data, place, std::to_string(count) + " readings",
                "up to " + std::to_string(kMostReadings));
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

std::vector<Reading> parse_readings(std::string_view text, const std::string& place, const Reading& usual) {
    const auto rows = csv_rows(text);
    if (rows.empty()) throw Error(Fault::data, place, "has no rows", "a line of column names and readings");
    auto columns = columns_of(rows.front(), place);
    if (rows.size() - 1 > 2 * kMostReadings) refuse_too_many(rows.size() - 1, place);
    CsvFaults faults(place);
    std::vector<Reading> readings;
    for (std::size_t i = 1; i < rows.size(); ++i)
        if (is_head(rows[i]))
            columns = columns_of(rows[i], place);
        else
            readings.push_back(reading_in(rows[i], columns, usual, faults));
    faults.refuse();
    if (readings.size() > kMostReadings) refuse_too_many(readings.size(), place);
    if (readings.empty()) throw Error(Fault::data, place, "has no readings", "one measured patch a row");
    refuse_doubles({readings, place});
    return readings;
}

std::vector<Reading> read_readings_file(const std::filesystem::path& path) {
    return parse_readings(read_text(path, kLargestReadingsFile, kReadingsWanted), path.string());
}

}  // namespace fogproof::pack
