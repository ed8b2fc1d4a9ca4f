// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Every input kept for the fuzzers, and every one that once was a finding, handed to its reader again.
#include <gtest/gtest.h>

#include <filesystem>

#include "fuzz/targets.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

const std::filesystem::path kInputs = std::filesystem::path(FOGPROOF_SOURCE_DIR) / "tests/fuzz/inputs";

TEST(FuzzReplay, EveryKeptInputIsReadOrRefused) {
    for (const auto& target : fuzz::targets()) {
        int tried = 0;
        for (const auto& entry : std::filesystem::directory_iterator(kInputs / target.name)) {
            SCOPED_TRACE(entry.path().string());
            EXPECT_NO_THROW(target.tried(content_of(entry.path())));
            ++tried;
        }
        EXPECT_GT(tried, 0) << target.name;
    }
}

// What one reader likes is what another has not expected.
TEST(FuzzReplay, EveryInputOfAnotherTargetIsRefusedOrReadToo) {
    for (const auto& target : fuzz::targets())
        for (const auto& entry : std::filesystem::recursive_directory_iterator(kInputs))
            if (entry.is_regular_file()) {
                SCOPED_TRACE(std::string(target.name) + " of " + entry.path().string());
                EXPECT_NO_THROW(target.tried(content_of(entry.path())));
            }
}

}  // namespace
}  // namespace fogproof::tests
