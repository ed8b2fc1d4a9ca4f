// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the codes of a scan stand for: its depth, its profile, the encoding asked for.
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

TEST_F(ScanFiles, SixteenBitTiffsWithoutProfileAreLinearInStripsAndTilesAndCompressed) {
    const auto option = [] { return VImage::option(); };
    write_tiff16("strips.tif");
    write_tiff16("tiles.tif", 64, 48,
                 option()->set("tile", true)->set("tile_width", 16)->set("tile_height", 16));
    write_tiff16("deflate.tif", 64, 48, option()->set("compression", VIPS_FOREIGN_TIFF_COMPRESSION_DEFLATE));
    write_tiff16("big.tif", 64, 48, option()->set("bigtiff", true));
    for (const char* name : {"strips.tif", "tiles.tif", "deflate.tif", "big.tif"}) {
        Notes notes;
        const Scan scan = Scan::open(folder / name, kWhole, notes);
        EXPECT_THAT(notes, Contains(AllOf(HasSubstr("16-bit"), HasSubstr("linear transmittance")))) << name;
        ASSERT_EQ(scan.scale().size(), 65536u);
        for (const auto& [x, y] : {std::pair{0, 0}, {63, 47}, {20, 31}})
            EXPECT_NEAR(density_at(scan, x, y), std::log10(65535 / ramp16(x, y, 0)), kClosedForm) << name;
        EXPECT_FALSE(scan.has_clear_reference());
    }
}

// Linear values from IEC 61966-2-1, evaluated here apart from the product.
TEST_F(ScanFiles, EightBitScansWithoutProfileAreSrgb) {
    write(raster<std::uint8_t>(64, 48, 1, ramp8, VIPS_INTERPRETATION_B_W), "grey.png");
    write(raster<std::uint8_t>(64, 48, 1, ramp8, VIPS_INTERPRETATION_B_W), "grey.tif");
    for (const char* name : {"grey.png", "grey.tif"}) {
        Notes notes;
        const Scan scan = Scan::open(folder / name, kWhole, notes);
        EXPECT_THAT(notes, Contains(AllOf(HasSubstr("8-bit"), HasSubstr("sRGB"))));
        ASSERT_EQ(scan.scale().size(), 256u);
        const double v = ramp8(30, 28, 0) / 255;  // code 128
        EXPECT_NEAR(density_at(scan, 30, 28), -2.4 * std::log10((v + 0.055) / 1.055), kClosedForm);
        EXPECT_NEAR(density_at(scan, 0, 0), -std::log10(10.0 / 255 / 12.92), kClosedForm);
    }
}

TEST_F(ScanFiles, GreyScannedAsRgbKeepsItsCodes) {
    write(raster<std::uint16_t>(40, 40, 3, ramp16, VIPS_INTERPRETATION_RGB16), "rgb.tif");
    write(raster<std::uint8_t>(40, 40, 3, ramp8, VIPS_INTERPRETATION_sRGB), "rgb.png");
    const Scan wide = open_whole(folder / "rgb.tif"), narrow = open_whole(folder / "rgb.png");
    EXPECT_EQ(codes_of(wide)[41], ramp16(1, 1, 0));
    EXPECT_EQ(narrow.scale().size(), 256u);
    EXPECT_EQ(codes_of(narrow)[41], ramp8(1, 1, 0));
}

// Weights 0.2126, 0.7152, 0.0722: IEC 61966-2-1.
TEST_F(ScanFiles, ColouredScansAreReducedToLuminance) {
    const auto tinted = [](int x, int y, int band) { return 1000.0 + 600 * x + 11 * y + 4000 * band; };
    write(raster<std::uint16_t>(48, 40, 3, tinted, VIPS_INTERPRETATION_RGB16), "tinted.tif");
    const Scan scan = open_whole(folder / "tinted.tif");
    for (const auto& [x, y] : {std::pair{0, 0}, {47, 39}, {13, 7}}) {
        const double light =
            (0.2126 * tinted(x, y, 0) + 0.7152 * tinted(x, y, 1) + 0.0722 * tinted(x, y, 2)) / 65535;
        EXPECT_NEAR(density_at(scan, x, y), -std::log10(light), kLogStep);
    }
}

TEST_F(ScanFiles, AlphaIsLeftAsideAndSaidSo) {
    const auto with_alpha = [](int x, int y, int band) { return band % 2 == 1 ? 30.0 : ramp8(x, y, 0); };
    const auto rgba = [](int x, int y, int band) { return band == 3 ? 30.0 : ramp8(x, y, 0); };
    write(raster<std::uint8_t>(40, 40, 2, with_alpha, VIPS_INTERPRETATION_B_W), "alpha.png");
    write(raster<std::uint8_t>(40, 40, 4, rgba, VIPS_INTERPRETATION_sRGB), "rgba.png");
    for (const char* name : {"alpha.png", "rgba.png"}) {
        Notes notes;
        const Scan scan = Scan::open(folder / name, kWhole, notes);
        EXPECT_THAT(notes, Contains(HasSubstr("alpha")));
        EXPECT_EQ(codes_of(scan)[45], ramp8(5, 1, 0)) << name;
    }
}

TEST_F(ScanFiles, FloatScansAreLinearAndCutTo16Bits) {
    const auto light = [](int x, int y, int) { return 0.001 + 0.0149 * x + 0.0002 * y; };
    write(raster<float>(64, 48, 1, light, VIPS_INTERPRETATION_B_W), "float.tif");
    const Scan scan = open_whole(folder / "float.tif");
    ASSERT_EQ(scan.scale().size(), 65536u);
    for (const auto& [x, y] : {std::pair{0, 0}, {63, 47}, {20, 31}})
        EXPECT_NEAR(density_at(scan, x, y), -std::log10(light(x, y, 0)), kLogStep);
}

TEST_F(ScanFiles, EmbeddedGreyProfileDecides) {
    const auto icc = grey_gamma_profile(1.8);
    write(with_profile(raster<std::uint16_t>(64, 48, 1, ramp16, VIPS_INTERPRETATION_GREY16), icc), "g18.tif");
    write(with_profile(raster<std::uint8_t>(64, 48, 1, ramp8, VIPS_INTERPRETATION_B_W), icc), "g18.png");
    Notes notes;
    const Scan wide = Scan::open(folder / "g18.tif", kWhole, notes);
    EXPECT_THAT(notes, Contains(HasSubstr("embedded profile")));
    EXPECT_NEAR(density_at(wide, 20, 31), -1.8 * std::log10(ramp16(20, 31, 0) / 65535), kProfile);
    EXPECT_NEAR(density_at(wide, 63, 47), -1.8 * std::log10(ramp16(63, 47, 0) / 65535), kProfile);
    const Scan narrow = open_whole(folder / "g18.png");
    EXPECT_NEAR(density_at(narrow, 20, 31), -1.8 * std::log10(ramp8(20, 31, 0) / 255), kProfile);
}

TEST_F(ScanFiles, EncodingAskedForOverridesTheProfile) {
    write(with_profile(raster<std::uint16_t>(64, 48, 1, ramp16, VIPS_INTERPRETATION_GREY16),
                       grey_gamma_profile(1.8)),
          "g18.tif");
    for (const auto& [encoding, power] : {std::pair{Encoding::linear, 1.0}, {Encoding::gamma22, 2.2}}) {
        Notes notes;
        const Scan scan = Scan::open(folder / "g18.tif", {.encoding = encoding, .whole = true}, notes);
        EXPECT_NEAR(density_at(scan, 9, 9), -power * std::log10(ramp16(9, 9, 0) / 65535), kClosedForm);
        EXPECT_THAT(notes, Contains(HasSubstr("set aside")));
    }
}

// Little CMS itself, asked pixel by pixel, is the witness; the product adds up one table a channel.
TEST_F(ScanFiles, RgbProfileGivesTheLuminanceLittleCmsGives) {
    const auto icc = bytes_of(cmsCreate_sRGBProfile());
    const auto tinted = [](int x, int y, int band) { return 12.0 + 3 * x + y + 20 * band; };
    write(with_profile(raster<std::uint8_t>(48, 40, 3, tinted, VIPS_INTERPRETATION_sRGB), icc), "tinted.png");
    const Scan scan = open_whole(folder / "tinted.png");
    const cmsHPROFILE profile = cmsCreate_sRGBProfile(), xyz = cmsCreateXYZProfile();
    const cmsHTRANSFORM witness = cmsCreateTransform(profile, TYPE_RGB_DBL, xyz, TYPE_XYZ_DBL,
                                                     INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
    for (const auto& [x, y] : {std::pair{0, 0}, {47, 39}, {13, 7}}) {
        const double rgb[3] = {tinted(x, y, 0) / 255, tinted(x, y, 1) / 255, tinted(x, y, 2) / 255};
        double result[3];
        cmsDoTransform(witness, rgb, result, 1);
        EXPECT_NEAR(density_at(scan, x, y), -std::log10(result[1]), kLogStep + kProfile);
    }
    cmsDeleteTransform(witness);
    cmsCloseProfile(profile);
    cmsCloseProfile(xyz);
}

TEST_F(ScanFiles, ProfileWithAColourTableIsFollowedPixelByPixel) {
    const auto tinted = [](int x, int y, int band) { return 3000.0 + 700 * x + 20 * y + 5000 * band; };
    write(with_profile(raster<std::uint16_t>(48, 40, 3, tinted, VIPS_INTERPRETATION_RGB16), table_profile()),
          "table.tif");
    Notes notes;
    const Scan scan = Scan::open(folder / "table.tif", kWhole, notes);
    EXPECT_THAT(notes, Contains(HasSubstr("embedded profile")));
    // Little CMS takes samples to 16 bits before a 16-bit table and its result after it, where 1.0 is 32768.
    constexpr double kTableStep = 0.5 / 65535 + 0.5 / 32768;
    for (const auto& [x, y] : {std::pair{0, 0}, {47, 39}, {13, 7}}) {
        double light = 0;
        for (const auto& [band, weight] : {std::pair{0, 0.3}, {1, 0.5}, {2, 0.2}})
            light += weight * std::pow(tinted(x, y, band) / 65535, 2.0);
        EXPECT_NEAR(std::pow(10.0, -density_at(scan, x, y)), light,
                    kTableStep + light * std::log(10.0) * kLogStep);
    }
}

TEST_F(ScanFiles, ProfileThatDoesNotFitIsSetAsideAndSaidSo) {
    const auto grey = raster<std::uint16_t>(64, 48, 1, ramp16, VIPS_INTERPRETATION_GREY16);
    write(with_profile(grey, bytes_of(cmsCreate_sRGBProfile())), "rgb-profile.tif");
    write(with_profile(grey, std::vector<unsigned char>(300, 'x')), "garbage-profile.tif");
    for (const char* name : {"rgb-profile.tif", "garbage-profile.tif"}) {
        Notes notes;
        const Scan scan = Scan::open(folder / name, kWhole, notes);
        EXPECT_THAT(notes, Contains(HasSubstr("is not used"))) << name;
        EXPECT_NEAR(density_at(scan, 5, 5), -std::log10(ramp16(5, 5, 0) / 65535), kClosedForm);
    }
}

}  // namespace
}  // namespace fogproof::tests
