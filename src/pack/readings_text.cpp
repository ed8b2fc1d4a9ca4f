// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <numeric>

#include "base/markup.hpp"
#include "base/shortest.hpp"
#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/appended_readings.hpp"
#include "pack/csv.hpp"
#include "pack/doubles.hpp"
#include "pack/reading_columns.hpp"
#include "system/file_descriptor.hpp"
#include "system/output_set.hpp"
#include "system/text_file.hpp"
#include "system/whole_file.hpp"

namespace fogproof::pack {
namespace {

namespace fs = std::filesystem;

// Columns by their place among reading_columns(); the strip's name stands before them.
using Columns = std::vector<std::size_t>;

// Those always written and those that the rows need.
Columns columns_for(std::span<const Reading> readings) {
    Columns columns;
    for (std::size_t i = 0; i < reading_columns().size(); ++i) {
        const ReadingColumn& column = reading_columns()[i];
        if (column.usual || std::ranges::any_of(readings, [&](const auto& r) { return fills(r, column); }))
            columns.push_back(i);
    }
    return columns;
}

Columns all_columns() {
    Columns columns(reading_columns().size());
    std::iota(columns.begin(), columns.end(), std::size_t(0));
    return columns;
}

std::string head_text(const Columns& columns) {
    std::string line = kStripColumn;
    for (const auto i : columns) line.append(",").append(reading_columns()[i].name);
    return line + "\n";
}

std::string rows_text(std::span<const Reading> readings, const Columns& columns) {
    std::string text;
    for (const auto& reading : readings) {
        text += csv_cell(reading.strip);
        for (const auto i : columns) {
            const ReadingColumn& column = reading_columns()[i];
            const auto value = column.get(reading);
            text += ",";
            if (column.text)
                text += csv_cell(reading.*column.text);
            else if (value)
                text += shortest(*value);
        }
        text += "\n";
    }
    return text;
}

// Rows below a head of ours with every column they need, or below a head of their own.
std::string continued(std::string_view text, std::span<const Reading> more) {
    const Columns needed = columns_for(more);
    std::string last_head;
    for (const auto& row : csv_rows(text)) {
        const bool is_head = std::ranges::find_if(row.cells, [](const auto& cell) {
                                 return trimmed(cell) == "density";
                             }) != row.cells.end();
        if (!is_head) continue;
        last_head.clear();
        for (const auto& cell : row.cells)
            last_head.append(last_head.empty() ? "" : ",").append(trimmed(cell));
    }
    for (const Columns& columns : {needed, all_columns()})
        if (last_head + "\n" == head_text(columns)) return rows_text(more, columns);
    return head_text(needed) + rows_text(more, needed);
}

std::string origin_line(const std::string& origin) {
    return "# origin: " + plain_line(origin) + "\n";
}

// Keeps a file for this process alone. Whoever had it before may have put another one in its place, so the
// lock counts only while the path still leads to what is locked. A file that had to be made for the lock goes
// again unless it is kept.
class Hold {
  public:
    explicit Hold(const fs::path& path) : path_(path) {
        do {
            open();
            while (::flock(file_.number(), LOCK_EX) != 0)
                if (errno != EINTR)
                    throw Error(Fault::io, path.string(),
                                std::string("cannot be locked: ") + std::strerror(errno));
        } while (!leads_here());
    }
    ~Hold() {
        // While it is locked nobody else can have written into it.
        if (is_made_ && leads_here()) ::unlink(path_.c_str());
    }
    Hold(const Hold&) = delete;
    Hold& operator=(const Hold&) = delete;

    void keep() { is_made_ = false; }

  private:
    void open() {
        file_ = FileDescriptor(::open(path_.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
        is_made_ = file_.is_open();
        if (!is_made_) file_ = FileDescriptor(::open(path_.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666));
        if (!file_.is_open())
            throw Error(Fault::cannot_create, path_.string(),
                        std::string("cannot be opened: ") + std::strerror(errno),
                        "a readings file in a folder that you may write to");
    }
    [[nodiscard]] bool leads_here() const {
        struct stat held {
        }, there{};
        return ::fstat(file_.number(), &held) == 0 && ::stat(path_.c_str(), &there) == 0 &&
               held.st_dev == there.st_dev && held.st_ino == there.st_ino;
    }
    fs::path path_;
    FileDescriptor file_;
    bool is_made_ = false;
};

// The whole text with further rows; an empty file, and one of comments or column names alone, is as good as
// none.
std::string appended(const fs::path& path, std::span<const OriginalRows> sets) {
    std::error_code unknown;
    const auto status = fs::status(path, unknown);
    if (fs::exists(status) && !fs::is_regular_file(status))
        throw Error(Fault::cannot_create, path.string(), "is not a regular file",
                    "a readings file, new or old");
    std::string text =
        fs::exists(status) ? read_text(path, kLargestReadingsFile, kReadingsWanted) : std::string();
    std::vector<Reading> there;
    if (csv_rows(text).size() > 1) there = parse_readings(text, path.string());
    std::vector<PlacedReadings> before{{there, path.string()}};
    for (const auto& set : sets) {
        const PlacedReadings more{set.rows, set.origin};
        for (const auto& earlier : before)
            refuse_doubles(earlier, more, "read only what was not read before");
        before.push_back(more);
        text = joined_readings(text, set.rows, set.origin);
    }
    if (text.size() > kLargestReadingsFile)
        throw Error(Fault::data, path.string(),
                    "would grow beyond " + std::to_string(kLargestReadingsFile >> 20) + " MB",
                    "a readings file for each pack");
    static_cast<void>(parse_readings(text, path.string()));
    return text;
}

}  // namespace

std::string readings_text(std::span<const Reading> readings, const std::string& origin) {
    const Columns columns = columns_for(readings);
    return origin_line(origin) + head_text(columns) + rows_text(readings, columns);
}

std::string joined_readings(std::string_view first, std::span<const Reading> second,
                            const std::string& origin) {
    if (csv_rows(first).empty()) return std::string(first) + readings_text(second, origin);
    std::string text(first);
    if (text.back() != '\n') text += "\n";
    return text + origin_line(origin) + continued(first, second);
}

void refuse_unappendable(const fs::path& path, std::span<const OriginalRows> sets) {
    static_cast<void>(appended(path, sets));
}

void append_readings(const fs::path& path, std::span<const OriginalRows> sets) {
    OutputSet alone;
    append_readings(path, sets, alone);
}

void append_readings(const fs::path& path, std::span<const OriginalRows> sets, OutputSet& files) {
    refuse_unappendable(path, sets);
    Hold hold(path);
    // As a whole file anew: a write that is killed halfway would leave half a row.
    files.write(path, appended(path, sets), WholeFile::Replace::allowed);
    files.place();
    hold.keep();
}

}  // namespace fogproof::pack
