// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Texts that a PNG holds packed, small in the file and huge when unpacked.
#include <gtest/gtest.h>

#include <string>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/said_in_files.hpp"

namespace fogproof::tests {
namespace {

// Deflate (RFC 1951) of one literal and matches of 258 bytes one byte back, by the fixed codes of
// clause 3.2.6: 13 bits for 258 bytes.
std::string packed_zeros(std::size_t bytes) {
    std::string text;
    unsigned held = 0;
    int count = 0;
    const auto put = [&](unsigned bits, int many) {
        for (int i = 0; i < many; ++i) {
            held |= (bits >> i & 1) << count;
            if (++count < 8) continue;
            text.push_back(char(held));
            held = 0, count = 0;
        }
    };
    put(3, 3);     // the last block, fixed codes
    put(0x0c, 8);  // literal 0: 00110000, its highest bit first
    while (text.size() < bytes) {
        put(0xa3, 8);  // length 258: 11000101
        put(0, 5);     // distance 1
    }
    put(0, 7);  // end of block
    put(0, 7);
    return "\x78\x9c" + text;
}

// 4 MB of packed texts are 660 MB unpacked (ISO/IEC 15948, clauses 11.3.4.3 and 11.3.4.4): no text is
// unpacked.
TEST(PackedTexts, OfAPngCostNothing) {
    const Program program;
    vips_ready();
    program.write("pack.toml", "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n");
    raster<std::uint16_t>(
        64, 48, 1, [](int x, int y, int) { return x * 900.0 + y * 40 + 3000; }, VIPS_INTERPRETATION_GREY16)
        .pngsave((program / "plain.png").c_str());
    const std::string packed = packed_zeros(40'000);
    std::string chunks;
    for (int i = 0; i < 50; ++i) {
        const std::string key = "Comment" + std::to_string(i);
        chunks += chunk("zTXt", key + std::string("\0\0", 2) + packed) +
                  chunk("iTXt", key + std::string("\0\1\0\0\0", 5) + packed);
    }
    constexpr std::size_t kHeader = 33;
    program.write("scan.png", content_of(program / "plain.png").insert(kHeader, chunks));
    const auto answer =
        program.shell("ulimit -t 3; exec \"$FOGPROOF\" print scan.png --pack pack.toml --whole -o out.tif");
    EXPECT_EQ(answer.code, 0) << answer.err;
    EXPECT_EQ(program.run("print plain.png --pack pack.toml --whole -o plain.tif").code, 0);
    const auto pixels = [&](const char* name) {
        return vips::VImage::new_from_file((program / name).c_str());
    };
    EXPECT_EQ((pixels("out.tif") != pixels("plain.tif")).max(), 0);
}

}  // namespace
}  // namespace fogproof::tests
