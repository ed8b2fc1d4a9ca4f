// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/scratch_file.hpp"

#include <fcntl.h>
#include <sys/statvfs.h>

#include <cstdlib>

namespace fogproof::system {
namespace {

// Of what is free. The print that is being made may go to the same disk, and is up to three times as large.
constexpr std::uint64_t kLargestShare = 8;

}  // namespace

std::optional<FileDescriptor> scratch_file(std::uint64_t bytes) {
    const char* const wanted = std::getenv("TMPDIR");
    const char* const folder = wanted != nullptr && *wanted != '\0' ? wanted : "/var/tmp";
    struct statvfs room {};
    if (::statvfs(folder, &room) != 0 ||
        std::uint64_t(room.f_bavail) * std::uint64_t(room.f_frsize) / kLargestShare < bytes)
        return std::nullopt;
    const int descriptor = ::open(folder, O_TMPFILE | O_RDWR | O_CLOEXEC, 0600);
    if (descriptor < 0) return std::nullopt;
    return FileDescriptor(descriptor);
}

}  // namespace fogproof::system
