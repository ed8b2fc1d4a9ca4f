// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A table of millions of columns takes no more memory than its file.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;

#ifndef __SANITIZE_ADDRESS__  // it reserves terabytes
TEST(WideCsv, MillionsOfColumnsAreRefusedInLittleMemory) {
    const Program program;
    program.write("wide.csv", "density" + std::string(20'000'000, ',') + "\n0.1\n");
    program.write("wide-row.csv", "density\n0.1" + std::string(7'000'000, ',') + "\n");
    for (const std::string job : {"read wide.csv -o out.csv", "pack fit wide-row.csv -o out.toml"}) {
        // In KB: what the program takes by itself, some times the file, and not fifty times.
        const auto answer = program.shell("ulimit -v 400000; \"$FOGPROOF\" --quiet " + job);
        EXPECT_EQ(answer.code, 65) << job << "\n" << answer.err;
        EXPECT_THAT(answer.err, AllOf(HasSubstr("wide"), HasSubstr("more than 1000 cells")));
        EXPECT_EQ(std::ranges::count(answer.err, '\n'), 1) << answer.err;
    }
}
#endif

}  // namespace
}  // namespace fogproof::tests
