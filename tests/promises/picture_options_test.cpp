// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The options of the picture that is written, asked of the program and read back by other libraries.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <lcms2.h>
#include <tiffio.h>

#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using vips::VImage;

const std::string kPrint =
    "print neg.tif --pack pack.toml --whole --clear 1 --exposure 12s --bleach 50% --force ";

VImage made(const PatchPrints& prints, const std::string& options, const std::string& name = "out.tif") {
    const auto answer = prints.program.run(kPrint + "-o " + name + " " + options);
    EXPECT_EQ(answer.code, 0) << options << "\n" << answer.err;
    return VImage::new_from_file((prints.program / name).c_str());
}

TEST(PictureOptions, BitsAreThoseAskedFor) {
    const PatchPrints prints;
    EXPECT_EQ(made(prints, "--bits 16").format(), VIPS_FORMAT_USHORT);
    EXPECT_EQ(made(prints, "--bits 8").format(), VIPS_FORMAT_UCHAR);
    EXPECT_EQ(made(prints, "--bits 16", "out.png").format(), VIPS_FORMAT_USHORT);
    EXPECT_EQ(made(prints, "", "out.jpg").format(), VIPS_FORMAT_UCHAR);
    EXPECT_NE(prints.program.run(kPrint + "-o out.jpg --bits 16").code, 0);
}

TEST(PictureOptions, CompressDeflatesAndKeepsThePixels) {
    const PatchPrints prints;
    const VImage plain = made(prints, "", "plain.tif"), packed = made(prints, "--compress", "packed.tif");
    EXPECT_EQ((plain - packed).abs().max(), 0);
    TIFF* const file = TIFFOpen((prints.program / "packed.tif").c_str(), "r");
    ASSERT_NE(file, nullptr);
    std::uint16_t compression = 0;
    TIFFGetField(file, TIFFTAG_COMPRESSION, &compression);
    TIFFClose(file);
    EXPECT_EQ(compression, COMPRESSION_ADOBE_DEFLATE);
    EXPECT_LT(std::filesystem::file_size(prints.program / "packed.tif"),
              std::filesystem::file_size(prints.program / "plain.tif"));
}

TEST(PictureOptions, QualityMakesLargerAndTruerJpegs) {
    const PatchPrints prints;
    std::uintmax_t last = 0;
    for (const char* quality : {"20", "60", "95"}) {
        static_cast<void>(made(prints, std::string("--quality ") + quality, "out.jpg"));
        const auto size = std::filesystem::file_size(prints.program / "out.jpg");
        EXPECT_GT(size, last) << quality;
        last = size;
    }
    static_cast<void>(made(prints, "", "usual.jpg"));
    EXPECT_EQ(std::filesystem::file_size(prints.program / "usual.jpg"), last);
}

TEST(PictureOptions, ProfileIsTheOneAskedForAndEmbedded) {
    const PatchPrints prints;
    EXPECT_EQ(made(prints, "").bands(), 3);
    EXPECT_EQ(made(prints, "--profile grey").bands(), 1);
    const VImage p3 = made(prints, "--profile display-p3", "p3.tif"),
                 srgb = made(prints, "--profile srgb", "srgb.tif");
    size_t one = 0, other = 0;
    const void *a = p3.get_blob(VIPS_META_ICC_NAME, &one), *b = srgb.get_blob(VIPS_META_ICC_NAME, &other);
    EXPECT_NE(std::string(static_cast<const char*>(a), one), std::string(static_cast<const char*>(b), other));
    // Any ICC file: what is embedded is that file.
    cmsHPROFILE own = cmsCreate_sRGBProfile();
    cmsSaveProfileToFile(own, (prints.program / "own.icc").c_str());
    cmsCloseProfile(own);
    const VImage with_own = made(prints, "--profile own.icc", "own.tif");
    const void* c = with_own.get_blob(VIPS_META_ICC_NAME, &one);
    EXPECT_EQ(std::string(static_cast<const char*>(c), one), content_of(prints.program / "own.icc"));
}

TEST(PictureOptions, RelativeRenderingMakesPaperWhiteAndAbsoluteKeepsItsTint) {
    const PatchPrints prints;
    save_patches(prints.program, "dense.tif", {1.0, 1e-4});
    const auto lightest = [&](const std::string& options) {
        EXPECT_EQ(prints.program
                      .run("print dense.tif --pack pack.toml --whole --clear 1 --exposure 3s --bleach 300% "
                           "--force -o out.tif " +
                           options)
                      .code,
                  0);
        return patches_of(prints.program, "out.tif", 2).back();
    };
    EXPECT_GT(lightest("--rendering relative"), 0.97 * 65535);
    EXPECT_LT(lightest("--rendering absolute"), 0.97 * 65535);
    EXPECT_EQ(lightest(""), lightest("--rendering absolute"));
}

TEST(PictureOptions, TheBathIsYellowAndADeeperOneMoreSo) {
    const PatchPrints prints;
    // Ferricyanide absorbs violet and blue (about 420 nm) and lets green and red pass.
    const auto blue_of_green = [&](const std::string& options) {
        const auto pixel = made(prints, options).getpoint(int(6.5 * kPatch), kPatch);
        return pixel[2] / pixel[1];
    };
    const double dry = blue_of_green("--view dry"), shallow = blue_of_green("--view bath --bath-depth 0.5"),
                 bath = blue_of_green("--view bath --bath-depth 2");
    EXPECT_LT(shallow, dry - 0.02);
    EXPECT_LT(bath, shallow - 0.02);
    EXPECT_EQ(blue_of_green("--view bath --bath-depth 5"), blue_of_green("--view bath"));
}

TEST(PictureOptions, BorderIsUnexposedPaperOfItsShareOfTheLongerSide) {
    const PatchPrints prints;
    const VImage bare = made(prints, "", "bare.tif"), framed = made(prints, "--border 10", "framed.tif");
    const int border = (framed.width() - bare.width()) / 2;
    EXPECT_NEAR(border, 0.1 * bare.width(), 1);
    EXPECT_EQ(framed.height() - bare.height(), framed.width() - bare.width());
    EXPECT_EQ((framed.extract_area(border, border, bare.width(), bare.height()) - bare).abs().max(), 0);
    // Paper that no light reached is at least as light as any tone of the picture.
    EXPECT_GE(framed.getpoint(1, 1)[1], bare.extract_band(1).max());
}

TEST(PictureOptions, SizeIsTheLongerSideOfASmallPrint) {
    const PatchPrints prints;
    const VImage small = made(prints, "--size 84");
    EXPECT_EQ(small.width(), 84);
    EXPECT_EQ(small.height(), 24);
    expect_same_print(patches_of(prints.program, "out.tif", 7), prints.codes("--exposure 12s --bleach 50%"));
}

TEST(PictureOptions, LongSideSetsTheResolution) {
    const PatchPrints prints;
    const VImage print = made(prints, "--long-side 84");
    EXPECT_NEAR(print.xres(), double(print.width()) / 84, 0.001);  // libvips counts pixels a millimetre
}

TEST(PictureOptions, AFolderTakesTheFormatAskedFor) {
    const PatchPrints prints;
    std::filesystem::create_directory(prints.program / "prints");
    for (const char* format : {"tif", "png", "jpg"}) {
        EXPECT_EQ(prints.program.run(kPrint + "-o prints --format " + format).code, 0);
        EXPECT_TRUE(std::filesystem::exists(prints.program / "prints" / (std::string("neg.") + format)));
    }
}

TEST(PictureOptions, VerifyReadsBackAndChangesNothing) {
    const PatchPrints prints;
    const VImage plain = made(prints, "", "plain.tif"), verified = made(prints, "--verify", "verified.tif");
    EXPECT_EQ(content_of(prints.program / "plain.tif"), content_of(prints.program / "verified.tif"));
    EXPECT_EQ((plain - verified).abs().max(), 0);
}

TEST(PictureOptions, OnlyForceReplacesAPicture) {
    const PatchPrints prints;
    prints.program.write("out.tif", "kept");
    EXPECT_NE(prints.program.run("print neg.tif --pack pack.toml --whole --clear 1 -o out.tif").code, 0);
    EXPECT_EQ(content_of(prints.program / "out.tif"), "kept");
    EXPECT_EQ(prints.program.run("print neg.tif --pack pack.toml --whole --clear 1 -o out.tif --force").code,
              0);
    EXPECT_NE(content_of(prints.program / "out.tif"), "kept");
}

// Length is pixels over XResolution (TIFF 6.0).
TEST(PictureOptions, ABorderToTheSheetsEdgesIsTheSheetInMillimetres) {
    const PatchPrints prints;
    const VImage sheet = made(prints, "--border sheet --sheet 9x12cm", "sheet.tif");
    constexpr double kPixel_mm = 1;  // half a pixel of a small scan at either edge
    EXPECT_NEAR(std::max(sheet.width() / sheet.xres(), sheet.height() / sheet.yres()), 120, kPixel_mm);
    EXPECT_NEAR(std::min(sheet.width() / sheet.xres(), sheet.height() / sheet.yres()), 90, kPixel_mm);
}

}  // namespace
}  // namespace fogproof::tests
