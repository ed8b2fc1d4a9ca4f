// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan opened: its frame, turns, codes, counts and references.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <lcms2.h>
#include <fstream>
#include <numeric>

#include "fogproof/base/error.hpp"
#include "scan/scan.hpp"
#include "support/film_scan.hpp"
#include "support/rooms.hpp"
#include "support/scan_codes.hpp"
#include "support/scan_files.hpp"
#include "system/whole_file.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using vips::VImage;

TEST_F(ScanFiles, JpegIsReadWithinItsOwnRounding) {
    const auto level = [](int x, int, int) { return x < 32 ? 60.0 : 200.0; };
    write(raster<std::uint8_t>(64, 48, 1, level, VIPS_INTERPRETATION_B_W), "grey.jpg",
          VImage::option()->set("Q", 100));
    const auto codes = codes_of(open_whole(folder / "grey.jpg"));
    EXPECT_NEAR(codes[0], 60, 1);
    EXPECT_NEAR(codes[63], 200, 1);
}

TEST_F(ScanFiles, BracketsInANameAreNoOptions) {
    write(raster<std::uint8_t>(64, 48, 1, ramp8, VIPS_INTERPRETATION_B_W), "plain.tif");
    std::filesystem::rename(folder / "plain.tif", folder / "roll 3 [page=1].tif");
    EXPECT_EQ(codes_of(open_whole(folder / "roll 3 [page=1].tif"))[65], ramp8(1, 1, 0));
}

TEST_F(ScanFiles, PrivateTagsOfAScannerDoNoHarm) {
    std::ofstream(folder / "private.tif", std::ios::binary) << tiff_with_private_tags(64, 48);
    testing::internal::CaptureStderr();
    EXPECT_EQ(codes_of(open_whole(folder / "private.tif"))[65], ramp8(1, 1, 0));
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
}

// TIFF 6.0, tag Orientation: what the stored 0th row and 0th column are in the upright picture.
TEST_F(ScanFiles, AllEightOrientationTagsAreObeyed) {
    const int wide = 40, high = 28;
    const auto upright = [](int x, int y) { return 1000.0 + 700 * x + 13 * y; };
    for (int tag = 1; tag <= 8; ++tag) {
        const bool lying = tag >= 5;
        VImage stored = raster<std::uint16_t>(
                            lying ? high : wide, lying ? wide : high, 1,
                            [&](int column, int row, int) {
                                const int right = wide - 1, bottom = high - 1;
                                switch (tag) {
                                    case 2:
                                        return upright(right - column, row);  // row 0 top, column 0 right
                                    case 3:
                                        return upright(right - column, bottom - row);  // bottom, right
                                    case 4:
                                        return upright(column, bottom - row);  // bottom, left
                                    case 5:
                                        return upright(row, column);  // left, top
                                    case 6:
                                        return upright(right - row, column);  // right, top
                                    case 7:
                                        return upright(right - row, bottom - column);  // right, bottom
                                    case 8:
                                        return upright(row, bottom - column);  // left, bottom
                                    default:
                                        return upright(column, row);  // top, left
                                }
                            },
                            VIPS_INTERPRETATION_GREY16)
                            .copy();
        stored.set(VIPS_META_ORIENTATION, tag);
        write(stored, "turned.tif");
        Notes notes;
        const Scan scan = Scan::open(folder / "turned.tif", {.frame = Region{3, 5, 30, 20}}, notes);
        const auto codes = codes_of(scan);
        ASSERT_EQ(codes.size(), 600u) << tag;
        for (int y = 0; y < 20; ++y)
            for (int x = 0; x < 30; ++x)
                ASSERT_EQ(codes[std::size_t(30 * y + x)], upright(x + 3, y + 5)) << "tag " << tag;
    }
}

TEST_F(ScanFiles, MirrorSwapsLeftAndRightOfTheFrame) {
    write_tiff16("ramp.tif");
    Notes notes;
    const Scan scan = Scan::open(folder / "ramp.tif", {.frame = Region{4, 6, 20, 16}, .mirror = true}, notes);
    const auto codes = codes_of(scan);
    EXPECT_EQ(codes.front(), ramp16(23, 6, 0));
    EXPECT_EQ(codes[19], ramp16(4, 6, 0));
    EXPECT_EQ(scan.frame().left, 4);
}

TEST_F(ScanFiles, HistogramCountsEveryPixelOfTheFrameOnce) {
    write_tiff16("ramp.tif");
    const Region frame{7, 3, 31, 40};
    Notes notes;
    const Scan scan = Scan::open(folder / "ramp.tif", {.frame = frame}, notes);
    Histogram expected(65536);
    for (int y = 0; y < frame.height; ++y)
        for (int x = 0; x < frame.width; ++x)
            ++expected[std::size_t(ramp16(x + frame.left, y + frame.top, 0))];
    EXPECT_EQ(scan.histogram(), expected);
}

TEST_F(ScanFiles, CodesCanBeReadAgainAndAgain) {
    write_tiff16("ramp.tif");
    const Scan scan = open_whole(folder / "ramp.tif");
    const auto first = codes_of(scan);
    EXPECT_EQ(first, codes_of(scan));
    const Scan copy = scan;
    EXPECT_EQ(first, codes_of(copy));
}

TEST_F(ScanFiles, ResolutionIsReportedWhereTheFileTellsIt) {
    const auto image = raster<std::uint16_t>(64, 48, 1, ramp16, VIPS_INTERPRETATION_GREY16);
    write(image.copy(VImage::option()->set("xres", 2400 / 25.4)->set("yres", 2400 / 25.4)), "dpi.tif");
    write(image, "none.tif");
    EXPECT_NEAR(open_whole(folder / "dpi.tif").pixels_per_mm().value(), 2400 / 25.4, 1e-3);
    EXPECT_FALSE(open_whole(folder / "none.tif").pixels_per_mm());
}

// 21 steps of 0.15 from 0.05 to 3.05: NAVEDTRA 14209, p. 10-40.
TEST_F(ScanFiles, TwentyOneStepTabletComesBackFromItsScan) {
    constexpr int kSteps = 21, kStepWidth = 20;
    constexpr double kBare = 58000, kScannerBlack = 12;
    const auto tablet = [](int x, int y, int) {
        if (y < 20) return kBare;
        if (y >= 60) return kScannerBlack;
        return std::round(kScannerBlack +
                          (kBare - kScannerBlack) * std::pow(10.0, -(0.05 + 0.15 * (x / kStepWidth))));
    };
    write(raster<std::uint16_t>(kSteps * kStepWidth, 80, 1, tablet, VIPS_INTERPRETATION_GREY16),
          "tablet.tif");
    Notes notes;
    const Scan scan = Scan::open(folder / "tablet.tif",
                                 {.frame = Region{0, 20, kSteps * kStepWidth, 40},
                                  .clear_region = Region{10, 2, 100, 15},
                                  .black_region = Region{10, 62, 100, 15}},
                                 notes);
    EXPECT_TRUE(scan.has_clear_reference());
    for (int step = 0; step < kSteps; ++step) {
        const double density = 0.05 + 0.15 * step;
        const double half_code = 0.5 / (kBare * std::pow(10.0, -density)) / std::log(10.0);
        EXPECT_NEAR(density_at(scan, step * kStepWidth + 5, 5), density, half_code * 1.01 + kClosedForm)
            << step;
    }
}

TEST_F(ScanFiles, ReferencesByValueAreTransmittances) {
    write_tiff16("ramp.tif");
    Notes notes;
    const Scan scan =
        Scan::open(folder / "ramp.tif", {.whole = true, .clear_value = 0.5, .black_value = 0.01}, notes);
    EXPECT_TRUE(scan.has_clear_reference());
    EXPECT_NEAR(density_at(scan, 20, 10), -std::log10((ramp16(20, 10, 0) / 65535 - 0.01) / 0.49),
                kClosedForm);
}

TEST_F(ScanFiles, PositiveBecomesAVirtualNegative) {
    write(raster<std::uint8_t>(64, 48, 1, ramp8, VIPS_INTERPRETATION_B_W), "picture.png");
    Notes notes;
    const Scan scan = Scan::open(folder / "picture.png", {.kind = ScanOptions::Kind::positive}, notes);
    EXPECT_THAT(notes, Contains(AllOf(HasSubstr("virtual film"), HasSubstr("assumed"))));
    EXPECT_LT(density_at(scan, 0, 0), density_at(scan, 63, 47));
    EXPECT_NEAR(scan.scale().back().value, VirtualFilm{}.range, kClosedForm);
    EXPECT_EQ(scan.width(), 64);
}

}  // namespace
}  // namespace fogproof::tests
