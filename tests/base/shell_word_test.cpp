// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/shell_word.hpp"

#include <gtest/gtest.h>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// POSIX.1-2017, Shell Command Language, 2.2: within single quotes every character stands for itself, and none
// can be a single quote.
TEST(ShellWord, IsPlainWhereItMayBeAndElseQuoted) {
    EXPECT_EQ(shell_word("sheets/hut-labels.csv"), "sheets/hut-labels.csv");
    EXPECT_EQ(shell_word("the hut.csv"), "'the hut.csv'");
    EXPECT_EQ(shell_word("it's $HOME"), "'it'\\''s $HOME'");
    EXPECT_EQ(shell_word("-x.csv"), "./-x.csv");
    EXPECT_EQ(shell_word(""), "''");
}

}  // namespace
}  // namespace fogproof::tests
