// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Files that are no usable scan.
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
using testing::HasSubstr;
using vips::VImage;

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

TEST_F(ScanFiles, OtherFormatsAreNamedByTheirContentAndRefused) {
    const auto image = raster<std::uint8_t>(64, 48, 1, ramp8, VIPS_INTERPRETATION_B_W);
    write(image, "picture.webp", VImage::option()->set("lossless", true));
    std::filesystem::rename(folder / "picture.webp", folder / "misnamed.tif");
    std::string text;
    EXPECT_EQ(fault_of(folder / "misnamed.tif", {.whole = true}, &text), Fault::data);
    EXPECT_THAT(text, testing::HasSubstr("is a WebP picture"));
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
}  // namespace fogproof::tests
