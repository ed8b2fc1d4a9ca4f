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

TEST(Memory, ThatTheMachineHasNotIsRefused) {
    if (promises_all()) GTEST_SKIP() << "this machine promises memory that it has not";
    constexpr std::uint64_t kSwapAndRoom = 64;  // times: no machine swaps to so much
    try {
        require_memory(kSwapAndRoom * memory_of_the_machine(), "scan.png");
        FAIL() << "it was promised";
    } catch (const Error& refused) {
        EXPECT_EQ(refused.fault(), Fault::unavailable);
    }
}

TEST(Memory, ThatTheMachineHasIsGranted) {
    EXPECT_NO_THROW(require_memory(1u << 20, "scan.png"));
}

}  // namespace
}  // namespace fogproof::tests
