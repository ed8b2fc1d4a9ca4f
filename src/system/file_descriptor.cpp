// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/file_descriptor.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "fogproof/base/error.hpp"

namespace fogproof::system {
namespace {

// What may stay in memory of a file being written: a print of usual size is there when it is looked at.
constexpr std::uint64_t kKept = 512 << 20;

}  // namespace

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

FileDescriptor::Trouble FileDescriptor::read(std::byte* bytes, std::size_t count, std::uint64_t place) const {
    while (count > 0) {
        const ssize_t got = ::pread(number_, bytes, count, off_t(place));
        if (got < 0 && errno == EINTR) continue;
        if (got <= 0) return got < 0 ? std::strerror(errno) : "the file ends too early";
        bytes += got;
        count -= std::size_t(got);
        place += std::uint64_t(got);
    }
    return std::nullopt;
}

FileDescriptor::Trouble FileDescriptor::write(const std::byte* bytes, std::size_t count,
                                              std::uint64_t place) const {
    while (count > 0) {
        const ssize_t put = ::pwrite(number_, bytes, count, off_t(place));
        if (put < 0 && errno == EINTR) continue;
        if (put <= 0) return std::strerror(put < 0 ? errno : ENOSPC);
        bytes += put;
        count -= std::size_t(put);
        place += std::uint64_t(put);
    }
    return std::nullopt;
}

FileDescriptor::Trouble FileDescriptor::write_behind(std::size_t count, std::uint64_t place) const {
    // Where a file system cannot do it, nothing is lost but time.
    ::sync_file_range(number_, off_t(place), off_t(count), SYNC_FILE_RANGE_WRITE);
    if (place < kKept) return std::nullopt;
    const auto behind = off_t(place - kKept), length = off_t(count);
    constexpr unsigned kDone =
        SYNC_FILE_RANGE_WAIT_BEFORE | SYNC_FILE_RANGE_WRITE | SYNC_FILE_RANGE_WAIT_AFTER;
    // A failure that is told here is not told again by fsync.
    if (::sync_file_range(number_, behind, length, kDone) != 0 &&
        (errno == EIO || errno == ENOSPC || errno == EDQUOT))
        return std::strerror(errno);
    ::posix_fadvise(number_, behind, length, POSIX_FADV_DONTNEED);
    return std::nullopt;
}

FileDescriptor::Trouble FileDescriptor::set_size(std::uint64_t bytes) const {
    if (::ftruncate(number_, off_t(bytes)) != 0) return std::strerror(errno);
    return std::nullopt;
}

}  // namespace fogproof::system
