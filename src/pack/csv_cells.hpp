// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Tables that people write: what their columns are, what their cells hold, and every fault in one go.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"
#include "pack/csv.hpp"
#include "pack/reading_columns.hpp"

namespace fogproof::pack {

/// Every fault of a file, so that all of them are mended in one go. A habit of the program that wrote the
/// file, such as decimal commas, is told once for all its rows.
class CsvFaults {
  public:
    explicit CsvFaults(const std::string& place) : place_(place) {}
    void add(int line, const std::string& found, const std::string& allowed);
    void add_habit(int line, const std::string& found, const std::string& allowed, const char* habit);
    /// Throws Error(Fault::data), a line for each fault, if there is any.
    void refuse() const;

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

/// The beginning of a cell in quotes.
[[nodiscard]] std::string shown_cell(const std::string&);
/// For each cell of the line of column names its place among `names`. Throws Error(Fault::data).
[[nodiscard]] std::vector<std::size_t> csv_columns(const CsvRow& head, std::span<const std::string> names,
                                                   const std::string& required, const std::string& place);
/// False, and a fault told, for a row that breaks the format or has more or fewer cells.
[[nodiscard]] bool is_whole_row(const CsvRow&, std::size_t columns, CsvFaults&);
/// A cell of text as it may stand in a pack's file.
void take_text(std::string& into, const std::string& cell, const char* name, int line, CsvFaults&);
/// A cell of a number; an empty one leaves the reading as it is unless the column is required.
void take_number(Reading&, const ReadingColumn&, const std::string& cell, int line, CsvFaults&);

}  // namespace fogproof::pack
