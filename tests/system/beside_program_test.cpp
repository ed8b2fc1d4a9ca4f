// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/beside_program.hpp"

#include <gtest/gtest.h>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

namespace fs = std::filesystem;

TEST(BesideProgram, IsInTheShareFolderOfTheRunningProgramsPrefix) {
    const fs::path prefix = fs::canonical("/proc/self/exe").parent_path().parent_path();
    EXPECT_EQ(beside_program("fonts/a.ttf"), prefix / "share/fogproof/fonts/a.ttf");
}

// A program that is unpacked elsewhere takes the typefaces that came with it: here a typeface of another
// width.
TEST(BesideProgram, TypefacesThereGoBeforeThoseOfTheSystem) {
    const Program program;
    ASSERT_EQ(program.run("demo . --megapixels 0.3").code, 0);
    fs::create_directories(program / "unpacked/bin");
    fs::create_directories(program / "unpacked/share/fogproof/fonts");
    ASSERT_EQ(program.shell("cp \"$FOGPROOF\" unpacked/bin/fogproof").code, 0);
    const std::string grid =
        "unpacked/bin/fogproof grid negative.tif --pack pack.toml --cell 100 -o grid.png --force";
    const auto with_systems = program.shell(grid);
    EXPECT_EQ(with_systems.code, 0) << with_systems.err;
    const std::string words = content_of(program / "grid.png");
    const fs::path fonts = program / "unpacked/share/fogproof/fonts";
    fs::copy_file(fs::path(FOGPROOF_SOURCE_DIR) / "src/package/fonts.conf", fonts / "fonts.conf");
    fs::copy_file("/usr/share/fonts/truetype/dejavu/DejaVuSansMono.ttf", fonts / "DejaVuSans.ttf");
    const auto with_own = program.shell(grid);
    EXPECT_EQ(with_own.code, 0) << with_own.err;
    EXPECT_FALSE(content_of(program / "grid.png") == words);
}

}  // namespace
}  // namespace fogproof::tests
