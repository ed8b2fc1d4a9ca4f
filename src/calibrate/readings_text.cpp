// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <fcntl.h>
#include <sys/file.h>
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

// A file held open for this process alone.
class LockedFile {
  public:
    explicit LockedFile(const fs::path& path)
        : path_(path), descriptor_(::open(path.c_str(), O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC, 0666)) {
        if (descriptor_ < 0)
            throw Error(Fault::cannot_create, path_.string(),
                        std::string("cannot be opened: ") + std::strerror(errno),
                        "a readings file in a folder that may be written into");
        while (::flock(descriptor_, LOCK_EX) != 0)
            if (errno != EINTR)
                throw Error(Fault::io, path_.string(),
                            std::string("cannot be locked: ") + std::strerror(errno));
    }
    ~LockedFile() { ::close(descriptor_); }
    LockedFile(const LockedFile&) = delete;
    LockedFile& operator=(const LockedFile&) = delete;

    // All of it or nothing: a row cut short by a full disk is taken back.
    void append(std::string_view text) {
        const off_t before = ::lseek(descriptor_, 0, SEEK_END);
        while (!text.empty()) {
            const ssize_t written = ::write(descriptor_, text.data(), text.size());
            if (written < 0 && errno == EINTR) continue;
            if (written < 0) {
                const int why = errno;
                if (::ftruncate(descriptor_, before) != 0)
                    throw Error(Fault::io, path_.string(),
                                std::string("cannot be mended: ") + std::strerror(errno));
                throw cannot_be_written(path_, std::strerror(why));
            }
            text.remove_prefix(std::size_t(written));
        }
        if (::fsync(descriptor_) != 0) throw cannot_be_written(path_, std::strerror(errno));
    }

  private:
    fs::path path_;
    int descriptor_;
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
    LockedFile file(path);
    const std::string before = read_whole(path);
    const auto rows = csv_rows(before);
    if (rows.empty()) {
        file.append((before.empty() || before.back() == '\n' ? "" : "\n") + readings_text(readings, origin));
        return;
    }
    std::string columns;
    for (const auto& cell : rows.front().cells)
        columns.append(columns.empty() ? "" : ",").append(trimmed(cell));
    if (columns + "\n" != head())
        throw Error(Fault::data, path.string(), "has other columns: " + columns.substr(0, 200),
                    "allowed to append to: " + head().substr(0, head().size() - 1));
    if (rows.size() > 1) static_cast<void>(parse_readings(before, path.string()));
    file.append((before.back() == '\n' ? "" : "\n") + origin_line(origin) + rows_text(readings));
}

}  // namespace fogproof
