// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan whose directory promises more bytes than there are, while every pixel is there: it is one scan,
// whatever format its print is written in. Layout: TIFF 6.0, section 8.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cstdint>
#include <string>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/wrong_files.hpp"

namespace fogproof::tests {
namespace {

using vips::VImage;

/// Eight strips of ten lines, 80 bytes a line; the directory gives the fifth 64 KB.
std::string lying_scan() {
    constexpr std::uint32_t kSide = 80, kLines = 10, kBytes = kSide * kLines, kCounts = 8,
                            kOffsets = kCounts + 32;
    constexpr std::uint32_t kPixels = kOffsets + 32, kDirectory = kPixels + kSide * kSide;
    std::string text = "II*" + std::string(1, '\0') + little(kDirectory, 4), offsets;
    for (std::uint32_t strip = 0; strip < kSide / kLines; ++strip) {
        text += little(strip == 4 ? 65536 : kBytes, 4);
        offsets += little(kPixels + strip * kBytes, 4);
    }
    text += offsets;
    for (std::uint32_t i = 0; i < kSide * kSide; ++i) text.push_back(char(20 + (i * 7 + i / 80 * 13) % 200));
    constexpr std::array<std::array<std::uint32_t, 4>, 9> kTags{{{256, 4, 1, kSide},
                                                                 {257, 4, 1, kSide},
                                                                 {258, 3, 1, 8},
                                                                 {259, 3, 1, 1},
                                                                 {262, 3, 1, 1},
                                                                 {273, 4, 8, kOffsets},
                                                                 {277, 3, 1, 1},
                                                                 {278, 4, 1, kLines},
                                                                 {279, 4, 8, kCounts}}};
    text += little(kTags.size(), 2);
    for (const auto& [tag, kind, count, value] : kTags)
        text += little(tag, 2) + little(kind, 2) + little(count, 4) + little(value, 4);
    return text + little(0, 4);
}

TEST(LyingStrips, EveryFormatIsPrintedFromTheSamePixels) {
    const Program program;
    vips_ready();
    ASSERT_EQ(program.run("pack new --white 0.08 --blank 0.3 --name box -o box.toml").code, 0);
    program.write("lying.tif", lying_scan());
    for (const std::string suffix : {"tif", "png", "jpg"}) {
        const auto answer =
            program.run("--quiet print lying.tif --as negative --encoding linear --whole --clear 1 " +
                        ("--pack box.toml --bits 8 --quality 100 -o out." + suffix));
        EXPECT_EQ(answer.code, 0) << answer.err;
    }
    const auto read = [&](const char* name) { return VImage::new_from_file((program / name).c_str()); };
    EXPECT_GT(read("out.tif").deviate(), 10);
    EXPECT_EQ((read("out.tif") != read("out.png")).max(), 0);
    EXPECT_LT((read("out.tif") - read("out.jpg")).abs().avg(), 2);
}

}  // namespace
}  // namespace fogproof::tests
