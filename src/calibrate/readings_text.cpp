// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <cstring>

#include "calibrate/csv.hpp"
#include "calibrate/reading_columns.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/base/whole_file.hpp"
#include "fogproof/base/words.hpp"

namespace fogproof {
namespace {

namespace fs = std::filesystem;

std::string head() {
    std::string line = kStripColumn;
    for (const auto& column : reading_columns()) line.append(",").append(column.name);
    return line + "\n";
}

std::string shortest_number(double value) {
    char buffer[32];
    return {buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr};
}

std::string rows_text(std::span<const Reading> readings) {
    std::string text;
    for (const auto& reading : readings) {
        text += csv_cell(reading.strip);
        for (const auto& column : reading_columns()) {
            const auto value = column.get(reading);
            text.append(",").append(value ? shortest_number(*value) : std::string());
        }
        text += "\n";
    }
    return text;
}

std::string origin_line(const std::string& origin) {
    std::string line = "# origin: ";
    for (const char c : origin) line.push_back(c == '\n' || c == '\r' ? ' ' : c);
    return line + "\n";
}

// Keeps a file for this process alone. Whoever had it before may have put another one in its place, so the
// lock counts only while the path still leads to what is locked.
class Hold {
  public:
    explicit Hold(const fs::path& path) {
        do {
            if (descriptor_ >= 0) ::close(descriptor_);
            descriptor_ = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666);
            if (descriptor_ < 0)
                throw Error(Fault::cannot_create, path.string(),
                            std::string("cannot be opened: ") + std::strerror(errno),
                            "a readings file in a folder that may be written into");
            while (::flock(descriptor_, LOCK_EX) != 0)
                if (errno != EINTR) {
                    const int why = errno;
                    ::close(descriptor_);
                    throw Error(Fault::io, path.string(),
                                std::string("cannot be locked: ") + std::strerror(why));
                }
        } while (!leads_here(path));
    }
    ~Hold() { ::close(descriptor_); }
    Hold(const Hold&) = delete;
    Hold& operator=(const Hold&) = delete;

  private:
    [[nodiscard]] bool leads_here(const fs::path& path) const {
        struct stat held {
        }, there{};
        return ::fstat(descriptor_, &held) == 0 && ::stat(path.c_str(), &there) == 0 &&
               held.st_dev == there.st_dev && held.st_ino == there.st_ino;
    }
    int descriptor_ = -1;
};

}  // namespace

std::string readings_text(std::span<const Reading> readings, const std::string& origin) {
    return origin_line(origin) + head() + rows_text(readings);
}

std::string joined_readings(std::string_view first, std::span<const Reading> second,
                            const std::string& origin) {
    if (first.empty()) return readings_text(second, origin);
    std::string text(first);
    if (text.back() != '\n') text += "\n";
    return text + origin_line(origin) + rows_text(second);
}

void append_readings(const fs::path& path, std::span<const Reading> readings, const std::string& origin) {
    std::error_code unknown;
    const auto status = fs::status(path, unknown);
    if (fs::exists(status) && !fs::is_regular_file(status))
        throw Error(Fault::cannot_create, path.string(), "is not a regular file",
                    "a readings file, new or old");
    const Hold hold(path);
    std::string text = read_whole(path);
    const auto rows = csv_rows(text);
    // As a whole file anew: a write that is killed halfway would leave half a row.
    const auto append = [&](const std::string& more) {
        if (!text.empty() && text.back() != '\n') text += "\n";
        write_whole(path, text + more, WholeFile::Replace::allowed);
    };
    if (rows.empty()) return append(readings_text(readings, origin));
    std::string columns;
    for (const auto& cell : rows.front().cells)
        columns.append(columns.empty() ? "" : ",").append(trimmed(cell));
    if (columns + "\n" != head())
        throw Error(Fault::data, path.string(), "has other columns: " + columns.substr(0, 200),
                    "allowed to append to: " + head().substr(0, head().size() - 1));
    if (rows.size() > 1) static_cast<void>(parse_readings(text, path.string()));
    append(origin_line(origin) + rows_text(readings));
}

}  // namespace fogproof
