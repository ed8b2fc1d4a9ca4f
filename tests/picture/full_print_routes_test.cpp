// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The two ways a scan can take, by the reader of lines or by libvips, lead to the same numbers and pixels.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "fogproof/base/error.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "picture/full_print.hpp"
#include "scan/small_negative.hpp"
#include "support/examples.hpp"
#include "support/film_scan.hpp"
#include "support/read_back.hpp"
#include "support/rooms.hpp"
#include "support/tiff_layouts.hpp"
#include "table/print_table.hpp"

namespace fogproof::tests {
namespace {

using vips::VImage;

// Sums of doubles in another order.
constexpr double kRounding = 1e-11;

class StripRoute : public testing::Test {
  protected:
    StripRoute() { vips_ready(); }
    [[nodiscard]] PrintModel model() const {
        PrintSteps made;
        made.exposures = {{filter_for(pack, paper, 3), Seconds{18}}};
        made.develop = develop_step(pack, {});
        made.finishing.bleach_dose = 0.25;
        return {paper, pack.darkroom.enlarger, made, 0.15};
    }
    [[nodiscard]] Scan opened(ScanOptions options, ReadBy read_by, Notes& notes) const {
        options.read_by = read_by;
        return Scan::open(folder / "scan.tif", options, notes);
    }
    // Everything that can be asked of a scan, and prints of it.
    void compare(const ScanOptions& options, const std::string& what, bool is_taken = true) const {
        Notes notes[2];
        const Scan quick = opened(options, ReadBy::lines, notes[0]),
                   plain = opened(options, ReadBy::libvips, notes[1]);
        EXPECT_EQ(quick.pixels()->in_order(), !is_taken) << what;
        // A turned scan is read back from where it was kept, whoever read the file.
        EXPECT_EQ(plain.pixels()->in_order(), plain.degrees_turned() == 0) << what;
        EXPECT_EQ(notes[0], notes[1]) << what;
        EXPECT_EQ(quick.width(), plain.width()) << what;
        EXPECT_EQ(quick.height(), plain.height()) << what;
        ASSERT_EQ(quick.pixels_per_mm().has_value(), plain.pixels_per_mm().has_value()) << what;
        EXPECT_FLOAT_EQ(float(quick.pixels_per_mm().value_or(0)), float(plain.pixels_per_mm().value_or(0)))
            << "libvips divides in single precision, " << what;
        EXPECT_TRUE(quick.histogram() == plain.histogram()) << what;
        EXPECT_TRUE(quick.light() == plain.light()) << what;
        EXPECT_EQ(quick.has_clear_reference(), plain.has_clear_reference()) << what;
        for (const int side : {400, 37}) {
            const SmallNegative a = small_negative(quick, side), b = small_negative(plain, side);
            ASSERT_EQ(a.density.size(), b.density.size()) << what;
            for (std::size_t i = 0; i < a.density.size(); ++i)
                ASSERT_NEAR(a.density[i].value, b.density[i].value, kRounding) << what;
        }
        for (const bool bordered : {false, true}) {
            PictureOptions picture;
            picture.bits = bordered ? 8 : 16;
            picture.replace = WholeFile::Replace::allowed;
            picture.verify = picture.compress = bordered;
            const auto output = OutputProfile::named(bordered ? "grey" : "display-p3");
            const double border = bordered ? 0.06 : 0.0;
            render_print(quick, print, {{}, border}, output, picture, folder / "quick.tif");
            render_print(plain, print, {{}, border}, output, picture, folder / "plain.tif");
            const VImage one = VImage::new_from_file((folder / "quick.tif").c_str()),
                         other = VImage::new_from_file((folder / "plain.tif").c_str());
            ASSERT_EQ(one.width(), other.width()) << what;
            ASSERT_EQ(one.height(), other.height()) << what;
            ASSERT_EQ(one.bands(), other.bands()) << what;
            ASSERT_EQ(one.format(), other.format()) << what;
            ASSERT_EQ(one.interpretation(), other.interpretation()) << what;
            EXPECT_EQ((one - other).abs().max(), 0) << what << (bordered ? ", bordered" : "");
        }
    }
    TestFolder folder;
    const Pack pack = examples::fogged_pack(0.35);
    const PaperModel paper = paper_model(pack);
    const PrintModel print = model();
};

unsigned shade(int x, int y, int sample) {
    return unsigned(3000 + 210 * x + 190 * y + (x * y) % 97 + 1500 * sample);
}

TEST_F(StripRoute, EveryLayoutPrintsAsThroughLibvips) {
    for (const int bits : {8, 16})
        for (const bool tiled : {false, true})
            for (const auto coding : {COMPRESSION_NONE, COMPRESSION_LZW, COMPRESSION_ADOBE_DEFLATE})
                for (const bool white_low : {false, true}) {
                    const TiffForm form{bits,      std::uint16_t(coding),     1, tiled, 16, tiled,
                                        white_low, coding == COMPRESSION_LZW, 1};
                    write_tiff(folder / "scan.tif", form, 157, 113, [bits](int x, int y, int sample) {
                        return bits == 16 ? shade(x, y, sample) : shade(x, y, sample) / 257;
                    });
                    compare({.whole = true}, testing::PrintToString(form));
                    if (coding == COMPRESSION_NONE)
                        compare({.frame = Region{10, 20, 71, 50}, .mirror = true},
                                testing::PrintToString(form));
                }
}

TEST_F(StripRoute, ColourScansAndAlphaToo) {
    for (const int bits : {8, 16})
        for (const int samples : {2, 3, 4})
            for (const bool neutral : {false, true}) {
                const TiffForm form{bits, COMPRESSION_NONE, 1, false, 16, false, false, false, samples};
                write_tiff(folder / "scan.tif", form, 157, 113, [&](int x, int y, int sample) {
                    const unsigned code = shade(x, y, neutral && sample < 3 ? 0 : sample);
                    return bits == 16 ? code : code / 257;
                });
                compare({.whole = true}, testing::PrintToString(form) + (neutral ? ", neutral" : ", colour"));
            }
}

TEST_F(StripRoute, ATurnedScanIsLeftToLibvips) {
    for (int orientation = 1; orientation <= 8; ++orientation) {
        raster<std::uint16_t>(
            157, 113, 1, [](int x, int y, int) { return shade(x, y, 0); }, VIPS_INTERPRETATION_GREY16)
            .tiffsave((folder / "plain-way.tif").c_str());
        VImage image = VImage::new_from_file((folder / "plain-way.tif").c_str()).copy();
        image.set(VIPS_META_ORIENTATION, orientation);
        image.tiffsave((folder / "scan.tif").c_str());
        compare({.frame = Region{10, 20, 71, 50}, .clear_value = 0.9}, std::to_string(orientation),
                orientation <= 2);
    }
}

TEST_F(StripRoute, FramesAreFoundAlike) {
    for (const double degrees : {0.0, 0.6}) {
        FilmScan film;
        film.degrees = degrees;
        film.drawn().tiffsave((folder / "scan.tif").c_str(),
                              VImage::option()->set("compression", VIPS_FOREIGN_TIFF_COMPRESSION_DEFLATE));
        compare({}, "film");
        compare({.clear_edge = true}, "film with its edge");
        compare({.askew = ScanOptions::Askew::kept}, "film kept askew");
    }
}

TEST_F(StripRoute, ADamagedScanIsRefusedByEither) {
    write_tiff(folder / "whole.tif", {16, COMPRESSION_ADOBE_DEFLATE, 2, false, 16}, 157, 113, shade);
    const LastStripAtEnd file(folder / "whole.tif");
    file.save_short_of(file.length() / 2, folder / "scan.tif");
    for (const ReadBy read_by : {ReadBy::lines, ReadBy::libvips})
        for (int run = 0; run < 60; ++run) {
            Notes notes;
            EXPECT_THROW(static_cast<void>(opened({.whole = true}, read_by, notes)), Error) << int(read_by);
        }
}

// The two ways to a small print: the negative made small as a lens would and then printed, or the large print
// seen from afar. Where tones are even they must agree; where grain and edges are averaged the paper's curve
// lies between them.
TEST_F(StripRoute, TheLargePrintSeenFromAfarIsNearlyThePrintOfTheSmallNegative) {
    constexpr int kSmall = 150;
    FilmScan film;
    film.grain = 0.05;
    film.drawn().tiffsave((folder / "scan.tif").c_str());
    Notes notes[2];
    const Scan quick = opened({}, ReadBy::lines, notes[0]), plain = opened({}, ReadBy::libvips, notes[1]);
    PictureOptions picture;
    picture.verify = true;
    const auto output = OutputProfile::named("display-p3");
    render_small_print(quick, print, {}, kSmall, output, picture, folder / "quick.tif");
    render_small_print(plain, print, {}, kSmall, output, picture, folder / "plain.tif");
    const ReadBack seen(folder / "quick.tif"), other(folder / "plain.tif");
    const SmallNegative small = small_negative(quick, kSmall);
    ASSERT_EQ(seen.width(), small.width);
    ASSERT_EQ(seen.height(), small.height);

    double worst = 0, sum = 0;
    for (int y = 0; y < small.height; ++y)
        for (int x = 0; x < small.width; ++x) {
            ASSERT_EQ(seen.codes_at(x, y), other.codes_at(x, y)) << "both routes";
            const Lab printed = print.patch(small.density[std::size_t(y * small.width + x)]).lab;
            const double apart = difference(seen.at(x, y), printed);
            worst = std::max(worst, apart);
            sum += apart;
        }
    const double mean = sum / (double(small.width) * small.height);
    std::cout << "CIEDE2000 between the two: mean " << mean << ", worst " << worst << "\n";
    EXPECT_GT(worst, 0.01) << "the two are not the same thing";
    EXPECT_LT(mean, 1.0) << "grain of 0.05 over areas of 7 by 7 pixels";
}

TEST_F(StripRoute, ASmallPrintIsTheMeanOfTheLightOfTheLargeOne) {
    write_tiff(folder / "scan.tif", {}, 64, 48,
               [](int x, int y, int) { return x % 2 == y % 2 ? 50000u : 5000u; });
    Notes notes;
    const Scan scan = opened({.whole = true}, ReadBy::lines, notes);
    render_small_print(scan, print, {}, 32, OutputProfile::named("display-p3"), {}, folder / "small.tif");
    const PrintTable table(print, scan.scale());
    const XYZ light = xyz(table.lab()[50000]), dark = xyz(table.lab()[5000]);
    const Lab wanted = lab(XYZ{(light.x + dark.x) / 2, (light.y + dark.y) / 2, (light.z + dark.z) / 2});
    const ReadBack seen(folder / "small.tif");
    ASSERT_EQ(seen.width(), 32);
    ASSERT_EQ(seen.height(), 24);
    for (int x = 0; x < 32; ++x) EXPECT_LT(difference(seen.at(x, x % 24), wanted), 0.05) << "16-bit codes";
}

}  // namespace
}  // namespace fogproof::tests
