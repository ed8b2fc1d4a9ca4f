// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/file_descriptor.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "fogproof/base/error.hpp"
#include "system/input_file.hpp"

namespace fogproof::pixels {
namespace {

// What may stay in memory of a file being written: a print of usual size is there when it is looked at.
constexpr std::uint64_t kKept = 512 << 20;

}  // namespace

FileDescriptor FileDescriptor::reading(const std::filesystem::path& path) {
    return FileDescriptor(opened_input(path));
}

FileDescriptor FileDescriptor::sharing(int descriptor) {
    FileDescriptor file(::fcntl(descriptor, F_DUPFD_CLOEXEC, 0));
    if (file.number_ < 0) throw Error(Fault::unavailable, "open files", std::strerror(errno));
    return file;
}

FileDescriptor::~FileDescriptor() {
    if (number_ >= 0) ::close(number_);
}

std::uint64_t FileDescriptor::size() const {
    struct stat status {};
    return ::fstat(number_, &status) == 0 ? std::uint64_t(status.st_size) : 0;
}

bool FileDescriptor::read(std::byte* bytes, std::size_t count, std::uint64_t place, std::string& why) const {
    while (count > 0) {
        const ssize_t got = ::pread(number_, bytes, count, off_t(place));
        if (got < 0 && errno == EINTR) continue;
        if (got <= 0) {
            why = got < 0 ? std::strerror(errno) : "the file ends too early";
            return false;
        }
        bytes += got;
        count -= std::size_t(got);
        place += std::uint64_t(got);
    }
    return true;
}

bool FileDescriptor::write(const std::byte* bytes, std::size_t count, std::uint64_t place,
                           std::string& why) const {
    while (count > 0) {
        const ssize_t put = ::pwrite(number_, bytes, count, off_t(place));
        if (put < 0 && errno == EINTR) continue;
        if (put <= 0) {
            why = std::strerror(put < 0 ? errno : ENOSPC);
            return false;
        }
        bytes += put;
        count -= std::size_t(put);
        place += std::uint64_t(put);
    }
    return true;
}

bool FileDescriptor::write_behind(std::size_t count, std::uint64_t place, std::string& why) const {
    // Where a file system cannot do it, nothing is lost but time.
    ::sync_file_range(number_, off_t(place), off_t(count), SYNC_FILE_RANGE_WRITE);
    if (place < kKept) return true;
    const auto behind = off_t(place - kKept), length = off_t(count);
    constexpr unsigned kDone =
        SYNC_FILE_RANGE_WAIT_BEFORE | SYNC_FILE_RANGE_WRITE | SYNC_FILE_RANGE_WAIT_AFTER;
    // A failure that is told here is not told again by fsync.
    if (::sync_file_range(number_, behind, length, kDone) != 0 &&
        (errno == EIO || errno == ENOSPC || errno == EDQUOT)) {
        why = std::strerror(errno);
        return false;
    }
    ::posix_fadvise(number_, behind, length, POSIX_FADV_DONTNEED);
    return true;
}

bool FileDescriptor::set_size(std::uint64_t bytes, std::string& why) const {
    if (::ftruncate(number_, off_t(bytes)) == 0) return true;
    why = std::strerror(errno);
    return false;
}

}  // namespace fogproof::pixels
