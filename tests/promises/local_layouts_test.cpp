// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Local work on scans of every layout that is read and prints of every format: under a mask that is white it
// is the print treated so as a whole, and of a half mask each half is its own print.
#include <gtest/gtest.h>
#include <tiffio.h>

#include <cstdlib>
#include <random>
#include <string>
#include <vector>

#include "fogproof/pack/file.hpp"
#include "support/examples.hpp"
#include "support/local_prints.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr int kRounding16 = 1;  // of 16 bits; what rounds one way here may round the other way there
constexpr int kHalf = LocalPrints::kWide / 2;

struct Treated {
    const char *work, *as_a_whole;
};
const std::vector<Treated> kTreated{
    {"work = \"burn\"\nstops = 1", "--exposure 24s"},
    {"work = \"dodge\"\ntime_s = 3", "--exposure 9s"},
    {"work = \"bleach\"\ntime_s = 40", "--exposure 12s --bleach 40s"},
};

// The tones of negative.tif, grey beside alpha in planes of their own (TIFF 6.0, PlanarConfiguration 2).
void save_in_planes(const LocalPrints& prints, const std::string& name) {
    const std::vector<int> grey = prints.samples_of("negative.tif");
    TIFF* const tiff = TIFFOpen((prints.program / name).c_str(), "w");
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, std::uint32_t(LocalPrints::kWide));
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, std::uint32_t(LocalPrints::kHigh));
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, std::uint16_t(16));
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, std::uint16_t(2));
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, std::uint16_t(PHOTOMETRIC_MINISBLACK));
    TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, std::uint16_t(PLANARCONFIG_SEPARATE));
    TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, std::uint32_t(LocalPrints::kHigh));
    const std::uint16_t alpha = EXTRASAMPLE_UNASSALPHA;
    TIFFSetField(tiff, TIFFTAG_EXTRASAMPLES, std::uint16_t(1), &alpha);
    std::vector<std::uint16_t> plane(grey.begin(), grey.end());
    for (std::uint32_t strip = 0; strip < 2; ++strip) {
        ASSERT_GT(TIFFWriteEncodedStrip(tiff, strip, plane.data(), tmsize_t(plane.size() * 2)), 0);
        plane.assign(plane.size(), 65535);
    }
    TIFFClose(tiff);
}

std::vector<std::string> every_layout(const LocalPrints& prints) {
    std::vector<std::string> names;
    const auto negative = vips::VImage::new_from_file((prints.program / "negative.tif").c_str());
    const vips::VImage byte =
        (negative >> 8)
            .cast(VIPS_FORMAT_UCHAR)
            .copy(vips::VImage::option()->set("interpretation", VIPS_INTERPRETATION_B_W));
    const auto save = [&](const vips::VImage& image, const std::string& name, const std::string& how = {}) {
        image.write_to_file(((prints.program / name).string() + how).c_str());
        names.push_back(name);
    };
    for (const auto& [image, bits] : {std::pair{negative, std::string("16")}, {byte, "8"}}) {
        save(image, "strips-" + bits + ".tif");
        save(image, "deflated-" + bits + ".tif", "[compression=deflate,predictor=horizontal]");
        save(image, "lzw-" + bits + ".tif", "[compression=lzw]");
        save(image, "tiles-" + bits + ".tif", "[tile,tile-width=64,tile-height=48]");
        save(image, "deflated-tiles-" + bits + ".tif",
             "[tile,tile-width=32,tile-height=32,compression=deflate]");
        save(image, "grey-" + bits + ".png");
    }
    save(byte, "grey.jpg", "[Q=95]");
    save(byte.bandjoin(byte).bandjoin(byte).copy(
             vips::VImage::option()->set("interpretation", VIPS_INTERPRETATION_sRGB)),
         "colour-8.tif");
    save_in_planes(prints, "planes-16.tif");
    names.push_back("planes-16.tif");
    return names;
}

// White everywhere the work is the whole print treated so; a half of it is each half its own print.
void expect_masks_print_as_wholes(const LocalPrints& prints, const Treated& treated, const std::string& grade,
                                  const std::string& scan, const std::vector<int>& plain) {
    const auto whole = prints.samples(grade + treated.as_a_whole, scan);
    prints.recipe("[[local]]\nwhere = \"white.png\"\n" + std::string(treated.work) + "\n");
    EXPECT_LE(farthest(prints.samples("--recipe recipe.toml", scan), whole), kRounding16);
    prints.recipe("[[local]]\nwhere = \"left.png\"\n" + std::string(treated.work) + "\n");
    const auto half = prints.samples("--recipe recipe.toml", scan);
    EXPECT_LE(farthest(half, whole, 0, kHalf), kRounding16);
    EXPECT_LE(farthest(half, plain, kHalf), kRounding16);
}

TEST(LocalLayouts, OnEveryLayoutAWhiteMaskIsTheWholeAndAHalfMaskItsHalf) {
    const LocalPrints prints;
    std::size_t turn = 0;
    for (const std::string& scan : every_layout(prints)) {
        SCOPED_TRACE(scan);
        const auto plain = prints.samples("--grade 2 --exposure 12s", scan);
        // Each layout with one of the works, by turns: the works themselves are asked elsewhere.
        const Treated& treated = kTreated[turn++ % kTreated.size()];
        SCOPED_TRACE(treated.work);
        expect_masks_print_as_wholes(prints, treated, "--grade 2 ", scan, plain);
    }
}

TEST(LocalLayouts, InEveryFormatOfAPrintAWhiteMaskIsTheWhole) {
    const LocalPrints prints;
    for (const Treated& treated : kTreated)
        for (const std::string print : {"p.tif", "p.png", "p.tif --bits 8", "p.png --bits 8", "p.jpg"}) {
            SCOPED_TRACE(std::string(treated.work) + " " + print);
            const std::string file = print.substr(0, print.find(' ')), options = print.substr(file.size());
            const auto whole = prints.samples("--grade 2 " + std::string(treated.as_a_whole) + options,
                                              "negative.tif", file);
            prints.recipe("[[local]]\nwhere = \"white.png\"\n" + std::string(treated.work) + "\n");
            const auto by_mask = prints.samples("--recipe recipe.toml" + options, "negative.tif", file);
            EXPECT_LE(farthest(by_mask, whole), kRounding16);
        }
}

// PACKS=50 asks as many; some seconds each.
TEST(LocalLayouts, OnRandomPacksEachHalfIsItsOwnPrintByBothRoutes) {
    LocalPrints prints;
    const int packs = std::getenv("PACKS") ? std::atoi(std::getenv("PACKS")) : 1;
    const auto layouts = every_layout(prints);
    std::mt19937 random(2611);
    for (int each = 0; each < packs; ++each) {
        Pack pack = examples::random_pack(random);
        pack.darkroom.enlarger.reciprocity = 0.9 + 0.05 * (each % 3);
        prints.program.write("pack.toml", written(pack));
        prints.has_grades = pack.contrast == Contrast::variable;
        const std::string grade = prints.has_grades ? "--grade 2 " : "";
        for (const std::string& scan :
             {std::string("negative.png"), layouts[std::size_t(each) % layouts.size()]}) {
            SCOPED_TRACE("pack " + std::to_string(each) + ", " + scan);
            const auto plain = prints.samples(grade + "--exposure 12s", scan);
            for (const Treated& treated : kTreated) {
                SCOPED_TRACE(treated.work);
                expect_masks_print_as_wholes(prints, treated, grade, scan, plain);
            }
        }
    }
}

}  // namespace
}  // namespace fogproof::tests
