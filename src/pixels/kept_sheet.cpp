// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/kept_sheet.hpp"

#include <sys/mman.h>

#include <cerrno>
#include <cstring>
#include <utility>

#include "fogproof/base/error.hpp"
#include "system/memory.hpp"
#include "system/scratch_file.hpp"

namespace fogproof::pixels {
namespace {

constexpr const char* kRoomAllowed = "room in the folder $TMPDIR or else /var/tmp";

FileDescriptor room_for(std::uint64_t bytes, const std::string& name) {
    if (auto scratch = scratch_file(bytes)) return std::move(*scratch);
    require_memory(bytes, name);
    FileDescriptor memory(::memfd_create("fogproof", MFD_CLOEXEC));
    if (!memory.is_open())
        throw Error(Fault::unavailable, name, "cannot be turned: neither disk nor memory has room for it",
                    kRoomAllowed);
    return memory;
}

}  // namespace

KeptSheet::KeptSheet(std::string name, int width, int height, std::size_t code_bytes)
    : name_(std::move(name)), width_(width), height_(height), code_bytes_(code_bytes) {
    file_ = room_for(bytes(), name_);
}

void KeptSheet::write(int top, int count, const CodeBand& codes) const {
    const auto* line = static_cast<const std::byte*>(codes.first);
    for (int y = top; y < top + count; ++y, line += codes.stride * code_bytes_)
        if (const auto trouble = file_.write(line, line_bytes(), std::uint64_t(y) * line_bytes()))
            throw Error(Fault::io, name_, "cannot be turned: " + *trouble, kRoomAllowed);
}

void KeptSheet::read(int line, int left, int count, std::byte* to) const {
    const std::uint64_t place = std::uint64_t(line) * line_bytes() + std::uint64_t(left) * code_bytes_;
    if (const auto trouble = file_.read(to, std::size_t(count) * code_bytes_, place))
        throw Error(Fault::io, name_, "cannot be read back after it was turned: " + *trouble);
}

std::shared_ptr<void> KeptSheet::mapped() const {
    void* const first = ::mmap(nullptr, bytes(), PROT_READ, MAP_SHARED, file_.number(), 0);
    if (first == MAP_FAILED)
        throw Error(Fault::unavailable, name_, std::string("cannot be turned: ") + std::strerror(errno),
                    "memory to hold it");
    return {first, [bytes = bytes()](void* held) { ::munmap(held, bytes); }};
}

}  // namespace fogproof::pixels
