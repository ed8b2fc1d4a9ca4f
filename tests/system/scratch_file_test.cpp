// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/scratch_file.hpp"

#include <gtest/gtest.h>

#include <array>
#include <filesystem>
#include <limits>

#include "support/film_scan.hpp"
#include "support/rooms.hpp"
#include "support/variable.hpp"

namespace fogproof::tests {
namespace {

TEST(ScratchFile, HoldsWhatIsWrittenAndHasNoName) {
    const TestFolder folder;
    const Variable here("TMPDIR", (folder / "").string());
    const auto file = scratch_file(1000);
    ASSERT_TRUE(file);
    const std::array<std::byte, 3> written{std::byte{1}, std::byte{2}, std::byte{3}};
    std::array<std::byte, 3> read{};
    EXPECT_EQ(file->write(written.data(), written.size(), 500), std::nullopt);
    EXPECT_EQ(file->read(read.data(), read.size(), 500), std::nullopt);
    EXPECT_EQ(read, written);
    EXPECT_TRUE(std::filesystem::is_empty(folder / ""));
}

TEST(ScratchFile, IsNotThereWithoutAFolderOrRoom) {
    EXPECT_TRUE(scratch_file(0));
    EXPECT_FALSE(scratch_file(std::numeric_limits<std::uint64_t>::max()));
    const Variable nowhere("TMPDIR", "/nonexistent");
    EXPECT_FALSE(scratch_file(0));
}

}  // namespace
}  // namespace fogproof::tests
