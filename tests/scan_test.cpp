// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Scans of every kind on disk, read back as densities that are known beforehand.
#include "fogproof/render/scan.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <lcms2.h>

#include <fstream>
#include <numeric>

#include "film_scan.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/base/whole_file.hpp"

namespace fogproof {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using vips::VImage;

constexpr double kClosedForm = 1e-9;  // densities computed in double on both sides
constexpr double kLogStep = 5e-5;  // half a step of the 16-bit coding in density, and single-precision light
constexpr double kProfile = 2e-5;  // Little CMS evaluates curves in single precision

const ScanOptions kWhole{.whole = true};

/// Codes of the printed part, row by row.
std::vector<double> codes_of(const Scan& scan) {
    const VImage codes = scan.codes().cast(VIPS_FORMAT_DOUBLE).copy_memory();
    const auto* first = static_cast<const double*>(codes.data());
    return {first, first + std::size_t(codes.width()) * std::size_t(codes.height())};
}

double density_at(const Scan& scan, int x, int y) {
    return scan.scale()[std::size_t(codes_of(scan)[std::size_t(y * scan.width() + x)])].value;
}

Scan open_whole(const std::filesystem::path& path) {
    Notes notes;
    return Scan::open(path, kWhole, notes);
}

Fault fault_of(const std::filesystem::path& path, const ScanOptions& options, std::string* text = nullptr) {
    Notes notes;
    try {
        (void)Scan::open(path, options, notes);
    } catch (const Error& error) {
        if (text) *text = error.what();
        return error.fault();
    }
    ADD_FAILURE() << path << " was not refused";
    return Fault::internal;
}

double ramp16(int x, int y, int) {
    return 200 + x * 900 + y * 17;
}
double ramp8(int x, int y, int) {
    return 10 + x * 3 + y;
}

class ScanFiles : public testing::Test {
  protected:
    TestFolder folder;
    void write(const VImage& image, const std::string& name, vips::VOption* options = nullptr) {
        image.write_to_file((folder / name).c_str(), options);
    }
    void write_tiff16(const std::string& name, int width = 64, int height = 48,
                      vips::VOption* options = nullptr) {
        write(raster<std::uint16_t>(width, height, 1, ramp16, VIPS_INTERPRETATION_GREY16), name, options);
    }
};

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

TEST_F(ScanFiles, JpegIsReadWithinItsOwnRounding) {
    const auto level = [](int x, int, int) { return x < 32 ? 60.0 : 200.0; };
    write(raster<std::uint8_t>(64, 48, 1, level, VIPS_INTERPRETATION_B_W), "grey.jpg",
          VImage::option()->set("Q", 100));
    const auto codes = codes_of(open_whole(folder / "grey.jpg"));
    EXPECT_NEAR(codes[0], 60, 1);
    EXPECT_NEAR(codes[63], 200, 1);
}

TEST_F(ScanFiles, OtherFormatsAreNamedByTheirContentAndRefused) {
    const auto image = raster<std::uint8_t>(64, 48, 1, ramp8, VIPS_INTERPRETATION_B_W);
    write(image, "picture.webp", VImage::option()->set("lossless", true));
    std::filesystem::rename(folder / "picture.webp", folder / "misnamed.tif");
    std::string text;
    EXPECT_EQ(fault_of(folder / "misnamed.tif", {.whole = true}, &text), Fault::data);
    EXPECT_THAT(text, testing::HasSubstr("is a WebP picture"));
}

TEST_F(ScanFiles, BracketsInANameAreNoOptions) {
    write(raster<std::uint8_t>(64, 48, 1, ramp8, VIPS_INTERPRETATION_B_W), "plain.tif");
    std::filesystem::rename(folder / "plain.tif", folder / "roll 3 [page=1].tif");
    EXPECT_EQ(codes_of(open_whole(folder / "roll 3 [page=1].tif"))[65], ramp8(1, 1, 0));
}

/// A little-endian TIFF of one strip, 8-bit grey, with private tags that no library knows.
std::string tiff_with_private_tags(int width, int height) {
    std::string bytes("II*\0\x08\0\0\0", 8);
    const auto put = [&](std::uint32_t value, int size) {
        for (int i = 0; i < size; ++i) bytes += char(value >> 8 * i & 255);
    };
    const std::uint32_t data = 8 + 2 + 11 * 12 + 4;
    const std::uint32_t entries[][2] = {{256, std::uint32_t(width)},
                                        {257, std::uint32_t(height)},
                                        {258, 8},
                                        {259, 1},
                                        {262, 1},
                                        {273, data},
                                        {277, 1},
                                        {278, std::uint32_t(height)},
                                        {279, std::uint32_t(width * height)},
                                        {50001, 7},
                                        {65001, 9}};
    put(std::size(entries), 2);
    for (const auto& [tag, value] : entries) put(tag, 2), put(4, 2), put(1, 4), put(value, 4);
    put(0, 4);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) bytes += char(int(ramp8(x, y, 0)));
    return bytes;
}

TEST_F(ScanFiles, PrivateTagsOfAScannerDoNoHarm) {
    std::ofstream(folder / "private.tif", std::ios::binary) << tiff_with_private_tags(64, 48);
    testing::internal::CaptureStderr();
    EXPECT_EQ(codes_of(open_whole(folder / "private.tif"))[65], ramp8(1, 1, 0));
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
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

std::vector<unsigned char> bytes_of(cmsHPROFILE profile) {
    cmsUInt32Number size = 0;
    cmsSaveProfileToMem(profile, nullptr, &size);
    std::vector<unsigned char> bytes(size);
    cmsSaveProfileToMem(profile, bytes.data(), &size);
    cmsCloseProfile(profile);
    return bytes;
}

VImage with_profile(const VImage& image, const std::vector<unsigned char>& icc) {
    VImage tagged = image.copy();
    tagged.set(VIPS_META_ICC_NAME, nullptr, const_cast<unsigned char*>(icc.data()), icc.size());
    return VImage(tagged).copy_memory();
}

std::vector<unsigned char> grey_gamma_profile(double gamma) {
    cmsToneCurve* curve = cmsBuildGamma(nullptr, gamma);
    const auto icc = bytes_of(cmsCreateGrayProfile(cmsD50_xyY(), curve));
    cmsFreeToneCurve(curve);
    return icc;
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

/// A scanner's profile with a colour table: curves of gamma 2, then a table that mixes the channels.
std::vector<unsigned char> table_profile() {
    const cmsHPROFILE profile = cmsCreateProfilePlaceholder(nullptr);
    cmsSetProfileVersion(profile, 4.3);
    cmsSetDeviceClass(profile, cmsSigInputClass);
    cmsSetColorSpace(profile, cmsSigRgbData);
    cmsSetPCS(profile, cmsSigXYZData);
    cmsWriteTag(profile, cmsSigMediaWhitePointTag, cmsD50_XYZ());
    cmsToneCurve* square = cmsBuildGamma(nullptr, 2.0);
    cmsToneCurve* curves[3] = {square, square, square};
    // Corners of the cube, blue running fastest; Y = 0.3 R + 0.5 G + 0.2 B, coded with 1.0 as 32768.
    std::vector<cmsUInt16Number> corners;
    for (int corner = 0; corner < 8; ++corner) {
        const double y = 0.3 * (corner >> 2) + 0.5 * (corner >> 1 & 1) + 0.2 * (corner & 1);
        for (const double white : {0.9642, 1.0, 0.8249})
            corners.push_back(cmsUInt16Number(std::lround(32768 * y * white)));
    }
    cmsPipeline* pipeline = cmsPipelineAlloc(nullptr, 3, 3);
    cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, curves));
    cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocCLut16bit(nullptr, 2, 3, 3, corners.data()));
    cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, nullptr));
    EXPECT_TRUE(cmsWriteTag(profile, cmsSigAToB0Tag, pipeline));
    cmsPipelineFree(pipeline);
    cmsFreeToneCurve(square);
    return bytes_of(profile);
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

TEST_F(ScanFiles, MissingFilesAndFoldersAreNoInput) {
    EXPECT_EQ(fault_of(folder / "nothing.tif", kWhole), Fault::no_input);
    EXPECT_EQ(fault_of(folder / "", kWhole), Fault::no_input);
    EXPECT_EQ(fault_of("/dev/null", kWhole), Fault::no_input);
}

TEST_F(ScanFiles, FilesThatAreNoPictureAreBadData) {
    std::ofstream(folder / "text.tif") << "a letter about a picture\n";
    std::ofstream(folder / "empty.png");
    std::ofstream(folder / "drawing.tif")
        << "<svg xmlns='http://www.w3.org/2000/svg' width='90' height='90'/>";
    for (const char* name : {"text.tif", "empty.png", "drawing.tif"}) {
        std::string text;
        EXPECT_EQ(fault_of(folder / name, kWhole, &text), Fault::data);
        EXPECT_THAT(text, AllOf(HasSubstr(name), HasSubstr("TIFF, PNG or JPEG")));
    }
}

TEST_F(ScanFiles, TruncatedFilesAreRefusedWhereverTheyEnd) {
    const auto noisy = raster<std::uint8_t>(
        400, 300, 1, [](int x, int y, int) { return (x * 37 + y * 91 + x * y) % 251; },
        VIPS_INTERPRETATION_B_W);
    write(noisy, "whole.png");
    write(noisy, "whole.jpg");
    write(noisy, "whole.tif");
    write(noisy, "deflate.tif", VImage::option()->set("compression", VIPS_FOREIGN_TIFF_COMPRESSION_DEFLATE));
    for (const char* name : {"whole.png", "whole.jpg", "whole.tif", "deflate.tif"}) {
        const std::string bytes = read_whole(folder / name);
        for (const double kept : {0.02, 0.3, 0.6, 0.9, 0.98}) {
            const std::string cut = std::string("cut-") + name;
            std::ofstream(folder / cut, std::ios::binary)
                << bytes.substr(0, std::size_t(kept * double(bytes.size())));
            for (const ScanOptions& options : {kWhole, ScanOptions{}}) {
                std::string text;
                EXPECT_EQ(fault_of(folder / cut, options, &text), Fault::data) << name << " cut to " << kept;
                EXPECT_THAT(text, HasSubstr(cut));
                EXPECT_EQ(text.find('\n'), std::string::npos);
            }
        }
    }
}

TEST_F(ScanFiles, SamplesThatAreNoTransmittanceAreRefused) {
    const float bad[] = {NAN, INFINITY, -INFINITY, 255.0f};
    for (const float value : bad) {
        write(raster<float>(
                  64, 48, 1,
                  [&](int x, int y, int) { return x == 40 && y == 30 ? value : 0.01f * float(x + 1); },
                  VIPS_INTERPRETATION_B_W),
              "bad.tif");
        for (const ScanOptions& options : {kWhole, ScanOptions{}}) {
            std::string text;
            EXPECT_EQ(fault_of(folder / "bad.tif", options, &text), Fault::data) << value;
            EXPECT_THAT(text, HasSubstr("holds a sample"));
        }
    }
}

TEST_F(ScanFiles, EmptyAndTinyScansAreRefused) {
    write(raster<std::uint16_t>(
              64, 48, 1, [](int, int, int) { return 777; }, VIPS_INTERPRETATION_GREY16),
          "flat.tif");
    write_tiff16("tiny.tif", 64, 15);
    std::string text;
    EXPECT_EQ(fault_of(folder / "flat.tif", kWhole, &text), Fault::data);
    EXPECT_THAT(text, HasSubstr("empty"));
    EXPECT_EQ(fault_of(folder / "flat.tif", {}), Fault::data);
    EXPECT_EQ(fault_of(folder / "tiny.tif", kWhole, &text), Fault::data);
    EXPECT_THAT(text, HasSubstr("64 x 15"));
}

TEST_F(ScanFiles, TooLargeScansAreRefusedBeforeTheyAreDecoded) {
    write_tiff16("large.tif");
    write(raster<std::uint8_t>(64, 48, 1, ramp8, VIPS_INTERPRETATION_B_W), "interlaced.png",
          VImage::option()->set("interlace", true));
    for (const char* name : {"large.tif", "interlaced.png"}) {
        std::string text;
        EXPECT_EQ(fault_of(folder / name, {.whole = true, .max_pixels = 3000}, &text), Fault::data);
        EXPECT_THAT(text, HasSubstr("64 x 48"));
    }
}

TEST_F(ScanFiles, OptionsThatCannotBeMetAreRefused) {
    write_tiff16("ramp.tif");
    const ScanOptions wrong[] = {
        {.frame = Region{50, 0, 20, 20}},
        {.frame = Region{-1, 0, 20, 20}},
        {.frame = Region{0, 0, 2147483647, 20}},
        {.frame = Region{0, 0, 20, 0}},
        {.frame = Region{0, 0, 15, 30}},
        {.frame = Region{0, 0, 20, 20}, .whole = true},
        {.whole = true, .clear_region = Region{60, 40, 5, 5}},
        {.whole = true, .black_region = Region{0, 48, 5, 5}},
        {.whole = true, .clear_value = 0.0},
        {.whole = true, .clear_value = 1.5},
        {.whole = true, .clear_value = NAN},
        {.whole = true, .black_value = 1.0},
        {.whole = true, .clear_region = Region{0, 0, 5, 5}, .clear_value = 0.5},
        {.whole = true, .clear_edge = true},
        {.kind = ScanOptions::Kind::positive, .clear_value = 0.5},
    };
    for (const auto& options : wrong)
        EXPECT_EQ(fault_of(folder / "ramp.tif", options), Fault::usage) << &options - wrong;
    EXPECT_EQ(fault_of(folder / "ramp.tif", {.whole = true, .clear_value = 0.2, .black_value = 0.3}),
              Fault::data);
    EXPECT_EQ(fault_of(folder / "ramp.tif", {.clear_edge = true}), Fault::data);
}

TEST_F(ScanFiles, OtherColourSpacesAndSampleTypesAreRefused) {
    const auto rgb = raster<std::uint8_t>(40, 40, 3, ramp8, VIPS_INTERPRETATION_sRGB);
    const auto four = raster<std::uint8_t>(40, 40, 4, ramp8, VIPS_INTERPRETATION_CMYK);
    write(four, "cmyk.tif");
    write(four, "cmyk.jpg");
    write(rgb.colourspace(VIPS_INTERPRETATION_LAB), "lab.tif");
    write(raster<std::uint16_t>(40, 40, 1, ramp16, VIPS_INTERPRETATION_GREY16).cast(VIPS_FORMAT_SHORT),
          "signed.tif");
    write(raster<std::uint16_t>(40, 40, 1, ramp16, VIPS_INTERPRETATION_GREY16).cast(VIPS_FORMAT_UINT),
          "long.tif");
    for (const char* name : {"cmyk.tif", "cmyk.jpg", "lab.tif"}) {
        std::string text;
        EXPECT_EQ(fault_of(folder / name, kWhole, &text), Fault::data);
        EXPECT_THAT(text, HasSubstr("not a greyscale or RGB scan")) << name;
    }
    EXPECT_EQ(fault_of(folder / "signed.tif", kWhole), Fault::data);
    EXPECT_EQ(fault_of(folder / "long.tif", kWhole), Fault::data);
}

}  // namespace
}  // namespace fogproof
