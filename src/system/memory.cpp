// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/memory.hpp"

#include <sys/mman.h>

#include <string>

#include "fogproof/base/error.hpp"

namespace fogproof::system {

void require_memory(std::uint64_t bytes, std::string_view place) {
    // Not MAP_NORESERVE: with it the system would not hold the wish against what the machine has.
    void* const probe = ::mmap(nullptr, bytes, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    if (probe == MAP_FAILED)
        throw Error(Fault::unavailable, place,
                    "needs " + std::to_string((bytes >> 20) + 1) + " MB of memory and cannot have them",
                    "more memory, or a wider limit (ulimit -v)");
    ::munmap(probe, bytes);
}

}  // namespace fogproof::system
