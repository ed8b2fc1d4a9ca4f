// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Memory for pictures, in large pages where the system has them: to be given a new picture page by page, 4 kB
// each, took longer than to draw it.
#pragma once

#include <sys/mman.h>

#include <cstddef>
#include <cstdlib>
#include <new>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// Allocates for a std::vector. What is smaller than two large pages comes from where all else does. Throws
/// std::bad_alloc.
template <class Value>
struct LargePages {
    using value_type = Value;
    LargePages() = default;
    template <class Other>
    constexpr LargePages(const LargePages<Other>&) {}

    [[nodiscard]] Value* allocate(std::size_t count) {
        if (count > std::size_t(-1) / 2 / sizeof(Value)) throw std::bad_alloc();
        const std::size_t wanted = count * sizeof(Value), bytes = (wanted + kPage - 1) / kPage * kPage;
        if (wanted < 2 * kPage) return static_cast<Value*>(::operator new(wanted));
        void* const memory = std::aligned_alloc(kPage, bytes);
        if (memory == nullptr) throw std::bad_alloc();
        ::madvise(memory, bytes, MADV_HUGEPAGE);  // a wish
        return static_cast<Value*>(memory);
    }
    void deallocate(Value* memory, std::size_t count) {
        if (count * sizeof(Value) < 2 * kPage)
            ::operator delete(memory);
        else
            std::free(memory);
    }
    friend constexpr bool operator==(LargePages, LargePages) { return true; }

  private:
    static constexpr std::size_t kPage = 2 << 20;  // of x86-64 and of arm64 with pages of 4 kB
};

}  // namespace fogproof::system
