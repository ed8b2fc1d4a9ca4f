// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Prints of TIFFs whose grey and alpha lie in planes of their own (TIFF 6.0, PlanarConfiguration 2) against
// prints of the same grey alone: pixel for pixel the same, by strips and through libvips.
#include <gtest/gtest.h>
#include <tiffio.h>

#include <string>
#include <vector>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr int kWide = 150, kHigh = 110, kLines = 9;

unsigned grey_at(int x, int y) {
    return unsigned(4000 + 250 * x + 190 * y + 37 * (x * y % 23));
}

void save(const std::filesystem::path& path, int bits, int samples, std::uint16_t coding) {
    TIFF* const tiff = TIFFOpen(path.c_str(), "w");
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, std::uint32_t(kWide));
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, std::uint32_t(kHigh));
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, std::uint16_t(bits));
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, std::uint16_t(samples));
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, std::uint16_t(PHOTOMETRIC_MINISBLACK));
    TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, std::uint16_t(PLANARCONFIG_SEPARATE));
    TIFFSetField(tiff, TIFFTAG_COMPRESSION, coding);
    TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, std::uint32_t(kLines));
    const std::uint16_t alpha = EXTRASAMPLE_UNASSALPHA;
    if (samples == 2) TIFFSetField(tiff, TIFFTAG_EXTRASAMPLES, std::uint16_t(1), &alpha);
    std::uint32_t strip = 0;
    for (int plane = 0; plane < samples; ++plane)
        for (int top = 0; top < kHigh; top += kLines, ++strip) {
            std::vector<std::uint8_t> bytes;
            for (int y = top; y < std::min(top + kLines, kHigh); ++y)
                for (int x = 0; x < kWide; ++x) {
                    // An alpha unlike the grey: were it taken for the grey, every pixel would tell.
                    const unsigned value = plane == 0 ? grey_at(x, y) : 65535 - grey_at(y, x) / 2;
                    if (bits == 16) bytes.push_back(std::uint8_t(value));
                    bytes.push_back(std::uint8_t(value >> 8));
                }
            ASSERT_GT(TIFFWriteEncodedStrip(tiff, strip, bytes.data(), tmsize_t(bytes.size())), 0);
        }
    TIFFClose(tiff);
}

TEST(PlanarPrint, GreyBesideAlphaPrintsAsGreyAlone) {
    const Program program;
    program.write("pack.toml", "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n");
    vips_ready();
    for (const int bits : {8, 16})
        for (const int coding : {COMPRESSION_NONE, COMPRESSION_LZW}) {
            SCOPED_TRACE(std::to_string(bits) + " bits, coding " + std::to_string(coding));
            const std::string mark = std::to_string(bits) + "-" + std::to_string(coding);
            save(program / ("grey" + mark + ".tif"), bits, 1, std::uint16_t(coding));
            save(program / ("alpha" + mark + ".tif"), bits, 2, std::uint16_t(coding));
            for (const std::string kind : {".tif", ".png"}) {
                std::vector<vips::VImage> prints;
                for (const char* scan : {"grey", "alpha"}) {
                    const std::string name = scan + mark;
                    const auto answer = program.run("print " + name + ".tif --pack pack.toml --whole -o " +
                                                    name + "-print" + kind);
                    ASSERT_EQ(answer.code, 0) << answer.err;
                    prints.push_back(
                        vips::VImage::new_from_file((program / (name + "-print" + kind)).c_str()));
                }
                ASSERT_EQ(prints[0].width(), kWide);
                EXPECT_EQ((prints[0] != prints[1]).max(), 0) << kind;
                EXPECT_GT(prints[0].deviate(), 1000) << "a picture, 16 bit";
            }
        }
}

}  // namespace
}  // namespace fogproof::tests
