// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/base/whole_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <sys/statvfs.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <system_error>

#include "base/leftovers.hpp"
#include "base/unfinished.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/base/input_file.hpp"
#include "fogproof/base/interruption.hpp"

namespace fogproof {
namespace fs = std::filesystem;

Error cannot_be_written(const fs::path& path, const std::string& why) {
    return Error(Fault::io, path.string(), "cannot be written: " + why, "room for it, and leave to write it");
}

namespace {

constexpr std::uint64_t kMegabyte = 1'000'000;

std::string reason() {
    return std::strerror(errno);
}

// Symbolic links are followed so that the file they point to is replaced, not the link.
fs::path resolved(const fs::path& target) {
    std::error_code fault;
    const fs::path real = fs::canonical(target, fault);
    return fault ? target : real;
}

fs::path folder_of(const fs::path& target) {
    return target.has_parent_path() ? target.parent_path() : fs::path(".");
}

void sync_path(const fs::path& path, int flags) {
    const int descriptor = ::open(path.c_str(), flags | O_CLOEXEC);
    if (descriptor < 0) throw Error(Fault::io, path.string(), "cannot be opened to be synced: " + reason());
    const bool done = ::fsync(descriptor) == 0;
    const std::string why = reason();
    ::close(descriptor);
    if (!done) throw cannot_be_written(path, why);
}

}  // namespace

void WholeFile::refuse_unwritable(const fs::path& target, Replace replace) {
    std::error_code fault;
    if (!fs::is_directory(folder_of(target), fault))
        throw Error(Fault::cannot_create, target.string(),
                    fault && fault != std::errc::no_such_file_or_directory
                        ? "its folder cannot be reached: " + fault.message()
                        : "its folder does not exist",
                    "a name in an existing folder");
    const auto status = fs::status(target, fault);
    if (fs::exists(status) && !fs::is_regular_file(status))
        throw Error(Fault::cannot_create, target.string(), "is not a regular file",
                    "a file, new or replaced");
    if (fs::exists(status) && replace == Replace::never)
        throw Error(Fault::cannot_create, target.string(), "exists already", "--force replaces it");
}

WholeFile::WholeFile(fs::path target, Replace replace)
    : told_(target.string()), target_(resolved(target)), replace_(replace) {
    refuse_unwritable(target, replace_);
    const fs::path folder = folder_of(target_);
    sweep_leftovers(folder);
    temporary_ = folder / temporary_name(target_);
    note_unfinished(temporary_.c_str());
    descriptor_ = ::open(temporary_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (descriptor_ < 0) {
        const std::string why = reason();
        forget_unfinished(temporary_.c_str());
        throw Error(Fault::cannot_create, told_, "cannot be made: " + why,
                    "a folder that may be written into");
    }
    hold_temporary(descriptor_);
}

WholeFile::~WholeFile() {
    if (!temporary_.empty()) ::unlink(temporary_.c_str());
    forget_unfinished(temporary_.c_str());
    if (descriptor_ >= 0) ::close(descriptor_);
}

void WholeFile::require_room(std::uint64_t bytes) const {
    struct statvfs room {};
    if (::statvfs(folder_of(target_).c_str(), &room) != 0) return;  // some file systems do not tell
    const auto unit = std::uint64_t(room.f_frsize);
    if (unit == 0 || room.f_blocks == 0 || std::uint64_t(room.f_bavail) >= bytes / unit + 1) return;
    throw Error(Fault::io, told_, "needs " + std::to_string(bytes / kMegabyte + 1) + " MB",
                std::to_string(room.f_bavail * unit / kMegabyte) + " MB are free there");
}

void WholeFile::sync() const {
    sync_path(temporary_, O_RDWR);
}

void WholeFile::publish() {
    // What replaces a file may be read and written by whom that could.
    struct stat old {};
    if (::stat(target_.c_str(), &old) == 0) static_cast<void>(::fchmod(descriptor_, old.st_mode & 0777));
    sync();
    // link() refuses where another process made the target meanwhile; rename() would silently replace it.
    if (replace_ == Replace::never && ::link(temporary_.c_str(), target_.c_str()) != 0) {
        if (errno == EEXIST)
            throw Error(Fault::cannot_create, told_, "exists already", "--force replaces it");
        if (errno != EPERM && errno != EOPNOTSUPP)
            throw Error(Fault::io, told_, "cannot be named: " + reason());
        if (::rename(temporary_.c_str(), target_.c_str()) != 0)
            throw Error(Fault::io, told_, "cannot be named: " + reason());
    } else if (replace_ == Replace::never) {
        ::unlink(temporary_.c_str());
    } else if (::rename(temporary_.c_str(), target_.c_str()) != 0) {
        throw Error(Fault::io, told_, "cannot be named: " + reason());
    }
    forget_unfinished(temporary_.c_str());
    temporary_.clear();
    sync_path(folder_of(target_), O_RDONLY | O_DIRECTORY);
}

void write_whole(const fs::path& target, std::string_view text, WholeFile::Replace replace) {
    WholeFile file(target, replace);
    const int descriptor = ::open(file.temporary().c_str(), O_WRONLY | O_CLOEXEC);
    if (descriptor < 0) throw cannot_be_written(target, reason());
    while (!text.empty()) {
        const ssize_t written = ::write(descriptor, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) {
            const std::string why = reason();
            ::close(descriptor);
            throw cannot_be_written(target, why);
        }
        text.remove_prefix(std::size_t(written));
    }
    if (::close(descriptor) != 0) throw cannot_be_written(target, reason());
    file.publish();
}

std::string read_whole(const fs::path& source, std::size_t limit) {
    const int descriptor = opened_input(source);
    std::string text;
    char buffer[65536];
    while (text.size() <= limit) {
        const ssize_t count = ::read(descriptor, buffer, sizeof buffer);
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) {
            const std::string why = reason();
            ::close(descriptor);
            throw Error(Fault::io, source.string(), "cannot be read: " + why);
        }
        if (count == 0) break;
        text.append(buffer, std::size_t(count));
    }
    ::close(descriptor);
    if (text.size() > limit)
        throw Error(Fault::data, source.string(), "is larger than " + std::to_string(limit) + " bytes",
                    "a file of this kind is far smaller");
    return text;
}

bool same_file(const fs::path& a, const fs::path& b) {
    struct stat one {
    }, other{};
    return ::stat(a.c_str(), &one) == 0 && ::stat(b.c_str(), &other) == 0 && one.st_dev == other.st_dev &&
           one.st_ino == other.st_ino;
}

}  // namespace fogproof
