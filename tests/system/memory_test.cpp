// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/memory.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>

#include "fogproof/base/error.hpp"

namespace fogproof::tests {
namespace {

using system::require_memory;

std::uint64_t memory_of_the_machine() {
    return std::uint64_t(::sysconf(_SC_PHYS_PAGES)) * std::uint64_t(::sysconf(_SC_PAGESIZE));
}

// proc(5): 1 promises whatever is asked for.
bool promises_all() {
    int mode = 0;
    std::ifstream("/proc/sys/vm/overcommit_memory") >> mode;
    return mode == 1;
}

bool is_granted(std::uint64_t bytes) {
    try {
        require_memory(bytes, "scan.png");
        return true;
    } catch (const Error& refused) {
        EXPECT_EQ(refused.fault(), Fault::unavailable);
        return false;
    }
}

// proc(5), overcommit_memory: 0 and 2 refuse obvious overcommits of address space. MAP_NORESERVE would not be
// held against them (mmap(2)).
TEST(Memory, ThatTheMachineHasNotIsRefusedUnlessItPromisesAll) {
    constexpr std::uint64_t kSwapAndRoom = 64;  // times: no machine swaps to so much
    EXPECT_EQ(is_granted(kSwapAndRoom * memory_of_the_machine()), promises_all());
}

TEST(Memory, ThatTheMachineHasIsGranted) {
    EXPECT_TRUE(is_granted(1u << 20));
}

}  // namespace
}  // namespace fogproof::tests
