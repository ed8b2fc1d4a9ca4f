// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/csv.hpp"

#include <algorithm>
#include <utility>

#include "base/words.hpp"

namespace fogproof::pack {
namespace {

// No table of readings needs so many, and a cell takes many times the byte of its comma.
constexpr std::size_t kMostCells = 1000;

// Reads row by row; a cell in quotes may run over line ends.
class Reader {
  public:
    explicit Reader(std::string_view text) : text_(text) {}

    [[nodiscard]] bool at_end() const { return at_ >= text_.size(); }

    CsvRow row() {
        CsvRow row{line_, {}, {}};
        do {
            if (row.cells.size() == kMostCells) {
                row.fault = "more than " + std::to_string(kMostCells) + " cells";
                skip_line();
                return row;
            }
            row.cells.push_back(at("\"") ? quoted(row.fault) : plain(row.fault));
        } while (take(","));
        if (!at_end() && !line_end()) {
            row.fault = "text after the quotes of a cell";
            skip_line();
        }
        return row;
    }

    // Comments and empty lines; true if one was there.
    bool skipped() {
        const auto end = std::min(text_.find_first_of("\r\n", at_), text_.size());
        const std::string_view rest = text_.substr(at_, end - at_);
        const auto first = rest.find_first_not_of(" \t");
        if (first != std::string_view::npos && rest[first] != '#') return false;
        skip_line();
        return true;
    }

  private:
    [[nodiscard]] bool at(std::string_view word) const { return text_.substr(at_).starts_with(word); }
    bool take(std::string_view word) {
        if (!at(word)) return false;
        at_ += word.size();
        return true;
    }
    bool line_end() {
        if (!take("\r\n") && !take("\n") && !take("\r")) return false;
        ++line_;
        return true;
    }
    void skip_line() {
        at_ = std::min(text_.find_first_of("\r\n", at_), text_.size());
        if (!at_end()) line_end();
    }

    std::string plain(std::string& fault) {
        const auto end = std::min(text_.find_first_of(",\r\n", at_), text_.size());
        std::string cell(text_.substr(at_, end - at_));
        if (cell.find('"') != std::string::npos) fault = "a quote inside a cell that has none around it";
        at_ = end;
        return cell;
    }

    std::string quoted(std::string& fault) {
        std::string cell;
        take("\"");
        while (!at_end()) {
            if (take("\"\"")) {
                cell.push_back('"');
            } else if (take("\"")) {
                return cell;
            } else {
                if (text_[at_] == '\n') ++line_;
                cell.push_back(text_[at_++]);
            }
        }
        fault = "quotes that are never closed";
        return cell;
    }

    std::string_view text_;
    std::size_t at_ = 0;
    int line_ = 1;
};

bool is_empty(const std::string& cell) {
    return trimmed(cell).empty();
}

// Spreadsheets write commas for lines and columns that were emptied.
bool is_empty_row(const CsvRow& row) {
    return row.fault.empty() && std::ranges::all_of(row.cells, is_empty);
}

// Last columns that have neither a name nor a value.
void drop_empty_columns(std::vector<CsvRow>& rows) {
    while (!rows.empty() && rows.front().fault.empty() && rows.front().cells.size() > 1 &&
           is_empty(rows.front().cells.back())) {
        const std::size_t columns = rows.front().cells.size();
        const auto has_it = [&](const CsvRow& row) { return row.cells.size() == columns; };
        if (std::ranges::any_of(
                rows, [&](const CsvRow& row) { return has_it(row) && !is_empty(row.cells.back()); }))
            return;
        for (CsvRow& row : rows)
            if (has_it(row)) row.cells.pop_back();
    }
}

}  // namespace

std::vector<CsvRow> csv_rows(std::string_view text) {
    // Spreadsheets like to put a byte order mark in front.
    if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3);
    Reader reader(text);
    std::vector<CsvRow> rows;
    while (!reader.at_end())
        if (!reader.skipped()) {
            CsvRow row = reader.row();
            if (!is_empty_row(row)) rows.push_back(std::move(row));
        }
    drop_empty_columns(rows);
    return rows;
}

std::string csv_cell(const std::string& text) {
    if (text.find_first_of(",\"\r\n#") == std::string::npos && (text.empty() || text.front() != ' '))
        return text;
    std::string cell = "\"";
    for (const char c : text) cell.append(c == '"' ? "\"\"" : std::string(1, c));
    return cell + "\"";
}

}  // namespace fogproof::pack
