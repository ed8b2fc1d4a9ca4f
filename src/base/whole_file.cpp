// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/base/whole_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <system_error>

#include "base/leftovers.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/base/input_file.hpp"

namespace fogproof {
namespace fs = std::filesystem;
namespace {

constexpr char kRoom[] = "room for it, and leave to write it";

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

void sync(const fs::path& path, int flags) {
    const int descriptor = ::open(path.c_str(), flags | O_CLOEXEC);
    if (descriptor < 0) throw Error(Fault::io, path.string(), "cannot be opened to be synced: " + reason());
    const bool done = ::fsync(descriptor) == 0;
    const std::string why = reason();
    ::close(descriptor);
    if (!done) throw Error(Fault::io, path.string(), "cannot be written out: " + why, kRoom);
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

WholeFile::WholeFile(fs::path target, Replace replace) : target_(resolved(target)), replace_(replace) {
    refuse_unwritable(target_, replace_);
    const fs::path folder = folder_of(target_);
    sweep_leftovers(folder);
    const fs::path temporary = folder / temporary_name(target_);
    descriptor_ = ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (descriptor_ < 0)
        throw Error(Fault::cannot_create, target_.string(), "cannot be made: " + reason(),
                    "a folder that may be written into");
    temporary_ = temporary;
    hold_temporary(descriptor_);
}

WholeFile::~WholeFile() {
    if (!temporary_.empty()) ::unlink(temporary_.c_str());
    if (descriptor_ >= 0) ::close(descriptor_);
}

void WholeFile::publish() {
    sync(temporary_, O_RDWR);
    // link() refuses where another process made the target meanwhile; rename() would silently replace it.
    if (replace_ == Replace::never && ::link(temporary_.c_str(), target_.c_str()) != 0) {
        if (errno == EEXIST)
            throw Error(Fault::cannot_create, target_.string(), "exists already", "--force replaces it");
        if (errno != EPERM && errno != EOPNOTSUPP)
            throw Error(Fault::io, target_.string(), "cannot be named: " + reason());
        if (::rename(temporary_.c_str(), target_.c_str()) != 0)
            throw Error(Fault::io, target_.string(), "cannot be named: " + reason());
    } else if (replace_ == Replace::never) {
        ::unlink(temporary_.c_str());
    } else if (::rename(temporary_.c_str(), target_.c_str()) != 0) {
        throw Error(Fault::io, target_.string(), "cannot be named: " + reason());
    }
    temporary_.clear();
    sync(folder_of(target_), O_RDONLY | O_DIRECTORY);
}

void write_whole(const fs::path& target, std::string_view text, WholeFile::Replace replace) {
    WholeFile file(target, replace);
    const int descriptor = ::open(file.temporary().c_str(), O_WRONLY | O_CLOEXEC);
    if (descriptor < 0) throw Error(Fault::io, target.string(), "cannot be written: " + reason(), kRoom);
    while (!text.empty()) {
        const ssize_t written = ::write(descriptor, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) {
            const std::string why = reason();
            ::close(descriptor);
            throw Error(Fault::io, target.string(), "cannot be written: " + why, kRoom);
        }
        text.remove_prefix(std::size_t(written));
    }
    if (::close(descriptor) != 0)
        throw Error(Fault::io, target.string(), "cannot be written: " + reason(), kRoom);
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
