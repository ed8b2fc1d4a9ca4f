// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A profile of half a kilobyte whose description promises millions of names (ICC.1:2022, 10.15) takes no
// memory for them.
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <string>

#include "fogproof/base/error.hpp"
#include "picture/profile.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

long peak_kilobytes() {
    struct rusage used {};
    ::getrusage(RUSAGE_SELF, &used);
    return used.ru_maxrss;
}

TEST(ProfileMemory, ADescriptionThatPromisesMillionsOfNamesTakesLittle) {
    static_cast<void>(OutputProfile::named("srgb"));
    const long before = peak_kilobytes();
    try {
        const auto read =
            OutputProfile::named(std::string(FOGPROOF_SOURCE_DIR) + "/tests/fuzz/inputs/profile/found-02");
        EXPECT_EQ(read.channels(), 3);
    } catch (const Error& error) {
        EXPECT_EQ(error.fault(), Fault::data) << error.what();
    }
    EXPECT_LT(peak_kilobytes() - before, 100'000);
}

}  // namespace
}  // namespace fogproof::tests
