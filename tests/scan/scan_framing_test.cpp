// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Drawn scans of film that lies askew. The askew scan is drawn from the formula of the picture, never turned
// from another, so each pixel of the upright frame has a density that is known.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "fogproof/base/error.hpp"
#include "pixels/turning.hpp"
#include "scan/scan_framing.hpp"
#include "scan/scan_memory.hpp"
#include "scan/small_negative.hpp"
#include "support/film_scan.hpp"
#include "support/rooms.hpp"
#include "support/scan_codes.hpp"

namespace fogproof::tests {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;
using vips::VImage;

const ScanOptions kKept{.askew = ScanOptions::Askew::kept};
// Of four sides of some hundred pixels of the small copy each; judgement, what was seen is under 0.02.
constexpr double kAngle = 0.04;
// The small copy's pixel is 2 or 3 of the scan; two are given away at each side of an upright frame.
constexpr double kSame = 2, kSmallPixels = 3;

/// Fine and coarse tones, nothing near clear film.
FilmScan askew_film(double degrees) {
    return {.degrees = degrees, .grain = 0, .picture_law = [](double u, double v) {
                return 0.8 + 0.3 * std::sin(9 * u + 2) * std::cos(7 * v) +
                       0.15 * std::sin(110 * u + 20 * v) * std::sin(90 * v);
            }};
}

class SetUpright : public testing::Test {
  protected:
    TestFolder folder;
    Notes notes;
    Scan opened(const VImage& drawn, const ScanOptions& options = {}, const std::string& name = "film.tif",
                VImage (*finish)(const VImage&) = nullptr) {
        (finish ? finish(drawn) : drawn).write_to_file((folder / name).c_str());
        notes.clear();
        return Scan::open(folder / name, options, notes);
    }
};

double quantile(std::vector<double> values, double share) {
    const auto at = values.begin() + std::ptrdiff_t(share * double(values.size() - 1));
    std::nth_element(values.begin(), at, values.end());
    return *at;
}

TEST_F(SetUpright, TheFrameIsThatOfTheUprightScanAndItsPixelsThePicture) {
    const FilmScan upright = askew_film(0);
    const Region straight = opened(upright.drawn()).frame();
    EXPECT_THAT(notes, Not(Contains(HasSubstr("turned"))));
    for (const double degrees : {-4.0, -1.3, 0.5, 3.0}) {
        const FilmScan film = askew_film(degrees);
        const Scan scan = opened(film.drawn());
        EXPECT_NEAR(scan.degrees_turned(), -degrees, kAngle);
        EXPECT_THAT(notes,
                    Contains(HasSubstr("degrees " + std::string(degrees < 0 ? "clockwise" : "anticlockwise") +
                                       " to set the frame upright")));
        const Region frame = scan.frame();
        EXPECT_NEAR(frame.width, straight.width, 2 * (kSame + kSmallPixels)) << degrees;
        EXPECT_NEAR(frame.height, straight.height, 2 * (kSame + kSmallPixels)) << degrees;

        // The film was turned about the middle of its frame. Where that lies now, the truth is known.
        const Turning turning(scan.degrees_turned(), film.width, film.height);
        const PixelPlace middle =
            turning.place_turned({(film.left + film.right) / 2, (film.top + film.bottom) / 2});
        EXPECT_GE(frame.left, middle.x - (film.right - film.left) / 2 - 0.5);
        EXPECT_LE(frame.left + frame.width, middle.x + (film.right - film.left) / 2 + 0.5);
        EXPECT_GE(frame.top, middle.y - (film.bottom - film.top) / 2 - 0.5);
        EXPECT_LE(frame.top + frame.height, middle.y + (film.bottom - film.top) / 2 + 0.5);
        const auto codes = codes_of(scan);
        std::vector<double> off;
        for (int y = 0; y < frame.height; ++y)
            for (int x = 0; x < frame.width; ++x) {
                const double film_x = frame.left + x + 0.5 - middle.x + (film.left + film.right) / 2,
                             film_y = frame.top + y + 0.5 - middle.y + (film.top + film.bottom) / 2;
                const double density =
                    scan.scale()[codes[std::size_t(y) * std::size_t(frame.width) + std::size_t(x)]].value;
                off.push_back(std::abs(density - (film.picture(film_x, film_y) - film.clear)));
            }
        const double median = quantile(off, 0.5), worst = quantile(off, 1);
        RecordProperty("median_at_" + std::to_string(degrees), std::to_string(median));
        RecordProperty("worst_at_" + std::to_string(degrees), std::to_string(worst));
        // A turn that is 0.02 degrees off moves the corners by 0.2 pixels, and tones by 0.004 where they
        // change fastest; codes and clear film round by less.
        EXPECT_LT(median, 0.001) << degrees;
        EXPECT_LT(worst, 0.01) << degrees;
    }
}

TEST_F(SetUpright, ClearFilmIsWhatItIsOnTheScanAsItLies) {
    const FilmScan film{.degrees = 2, .perforations = true, .dust = true};
    const Scan turned = opened(film.drawn()), kept = opened(film.drawn(), kKept);
    ASSERT_NE(turned.degrees_turned(), 0);
    EXPECT_EQ(kept.degrees_turned(), 0);
    EXPECT_EQ(turned.scale(), kept.scale());
    EXPECT_EQ(turned.film_base().density, kept.film_base().density);
    EXPECT_EQ(turned.warnings(), kept.warnings());
    EXPECT_GT(turned.frame().width, kept.frame().width + 15);
    EXPECT_GT(turned.frame().height, kept.frame().height + 25);
}

TEST_F(SetUpright, WhatLiesUprightOrWasToldIsReadAsItIs) {
    const FilmScan straight = askew_film(0.1), askew = askew_film(2);
    const Scan as_found = opened(straight.drawn()), kept = opened(straight.drawn(), kKept);
    EXPECT_EQ(as_found.degrees_turned(), 0);
    EXPECT_EQ(codes_of(as_found), codes_of(kept));
    EXPECT_EQ(opened(askew.drawn(), {.whole = true}).degrees_turned(), 0);
    EXPECT_EQ(opened(askew.drawn(), {.frame = Region{300, 250, 500, 400}}).degrees_turned(), 0);
    // A positive is never searched for a frame.
    const Scan positive = opened(askew.drawn(), {.kind = ScanOptions::Kind::positive});
    EXPECT_EQ(positive.degrees_turned(), 0);
    EXPECT_EQ(positive.width(), askew.width);
}

TEST_F(SetUpright, TheSameCodesOutOfEveryLayout) {
    const VImage drawn = askew_film(-1.3).drawn();
    const Scan strips = opened(drawn);
    const auto codes = codes_of(strips);
    drawn.write_to_file(
        (folder / "tiles.tif").c_str(),
        VImage::option()->set("tile", true)->set("compression", VIPS_FOREIGN_TIFF_COMPRESSION_DEFLATE));
    EXPECT_TRUE(codes_of(Scan::open(folder / "tiles.tif", {}, notes)) == codes);
    EXPECT_TRUE(codes_of(opened(drawn, {}, "film.png")) == codes);
    EXPECT_TRUE(codes_of(Scan::open(folder / "film.tif", {.read_by = ReadBy::libvips}, notes)) == codes);
    // Stored on its side or mirrored, with the tag that says so (TIFF 6.0, Orientation).
    const auto tagged = [&](const VImage& stored, int orientation) {
        VImage image = stored.copy();
        image.set(VIPS_META_ORIENTATION, orientation);
        return codes_of(opened(VImage(image).copy_memory(), {}, "tagged.tif"));
    };
    EXPECT_TRUE(tagged(drawn.fliphor(), 2) == codes);
    EXPECT_TRUE(tagged(drawn.rot270(), 6) == codes);
}

TEST_F(SetUpright, MirroredItIsTheSameFrameFromRightToLeft) {
    const VImage drawn = askew_film(3).drawn();
    const Scan plain = opened(drawn), mirrored = opened(drawn, {.mirror = true});
    auto codes = codes_of(mirrored);
    for (auto line = codes.begin(); line != codes.end(); line += mirrored.width())
        std::reverse(line, line + mirrored.width());
    EXPECT_TRUE(codes == codes_of(plain));
    EXPECT_EQ(mirrored.degrees_turned(), plain.degrees_turned());
}

TEST_F(SetUpright, EightBitsJpegAndColourComeOutTheSameWithinTheirCoding) {
    const VImage drawn = askew_film(2).drawn();
    const Scan deep = opened(drawn);
    const auto compare = [&](const Scan& scan, double median_allowed) {
        ASSERT_NE(scan.degrees_turned(), 0);
        EXPECT_NEAR(scan.degrees_turned(), deep.degrees_turned(), 0.01);
        ASSERT_NEAR(scan.width(), deep.width(), kSmallPixels);
        const auto codes = codes_of(scan), usual = codes_of(deep);
        const int left = scan.frame().left - deep.frame().left, top = scan.frame().top - deep.frame().top;
        std::vector<double> off;
        for (int y = 50; y < 600; y += 3)
            for (int x = 50; x < 1000; x += 3)
                off.push_back(
                    std::abs(scan.scale()[codes[std::size_t((y - top) * scan.width() + x - left)]].value -
                             deep.scale()[usual[std::size_t(y * deep.width() + x)]].value));
        EXPECT_LT(quantile(off, 0.5), median_allowed);
    };
    const ScanOptions gamma{.encoding = Encoding::gamma22};
    const VImage plain = (drawn / 65535.0).pow(1 / 2.2).linear(255, 0.5).cast(VIPS_FORMAT_UCHAR);
    const auto options = [&] { return gamma; };
    compare(opened(plain.copy(VImage::option()->set("interpretation", VIPS_INTERPRETATION_B_W)), options(),
                   "eight.tif"),
            0.012);
    plain.copy(VImage::option()->set("interpretation", VIPS_INTERPRETATION_B_W))
        .write_to_file((folder / "film.jpg").c_str(), VImage::option()->set("Q", 97));
    compare(Scan::open(folder / "film.jpg", gamma, notes), 0.015);
    // Three channels that differ go through light to a coding in steps of density.
    const VImage colour = drawn.bandjoin(drawn.linear(0.97, 0).cast(VIPS_FORMAT_USHORT))
                              .bandjoin(drawn.linear(0.94, 0).cast(VIPS_FORMAT_USHORT))
                              .copy(VImage::option()->set("interpretation", VIPS_INTERPRETATION_RGB16));
    compare(opened(colour, {}, "colour.tif"), 0.003);
}

TEST_F(SetUpright, NothingFromBeyondTheScanIsFrame) {
    // Film that runs off the scan on the left and right: only its upper and lower edges are seen.
    for (const double degrees : {2.0, -3.0}) {
        FilmScan film = askew_film(degrees);
        film.holder = 0, film.left = -250, film.right = 1690;
        const Scan scan = opened(film.drawn());
        ASSERT_NEAR(scan.degrees_turned(), -degrees, kAngle);
        const Turning turning(scan.degrees_turned(), film.width, film.height);
        const Region frame = scan.frame();
        for (const int x : {frame.left, frame.left + frame.width})
            for (const int y : {frame.top, frame.top + frame.height}) {
                const PixelPlace corner = turning.place_lying({double(x), double(y)});
                EXPECT_GE(corner.x, -1e-3);
                EXPECT_GE(corner.y, -1e-3);
                EXPECT_LE(corner.x, film.width + 1e-3);
                EXPECT_LE(corner.y, film.height + 1e-3);
            }
        EXPECT_GT(frame.width, film.width - 2 * 700 * std::tan(0.055) - 10);
        EXPECT_NEAR(frame.height, film.bottom - film.top, 2 * (kSame + 3 * kSmallPixels));
    }
}

TEST_F(SetUpright, ClearEdgesArePrintedAroundTheUprightFrame) {
    FilmScan film = askew_film(-2);
    film.grain = 0.01;
    const Scan plain = opened(film.drawn()), edged = opened(film.drawn(), {.clear_edge = true});
    EXPECT_EQ(edged.histogram(), plain.histogram());
    EXPECT_GT(edged.width(), plain.width() + 60);
    EXPECT_GT(edged.height(), plain.height() + 40);
    const auto codes = codes_of(edged);
    // The holder was straight and lies askew now: no more of it than of dust gets into the outermost line.
    int clear = 0;
    for (int x = 0; x < edged.width(); ++x)
        clear += std::abs(edged.scale()[codes[std::size_t(x)]].value) < 6 * film.grain;
    EXPECT_GT(clear, 0.97 * edged.width());
}

TEST_F(SetUpright, RegionsAreMeasuredOnTheScanAsItLies) {
    // A dark corner of the holder and a patch of clear film, both given in pixels of the file.
    FilmScan film = askew_film(3);
    film.grain = 0.01;
    ScanOptions told{.clear_region = Region{100, 300, 30, 200}, .black_region = Region{2, 2, 30, 900}};
    const Scan turned = opened(film.drawn(), told);
    told.askew = ScanOptions::Askew::kept;
    const Scan kept = opened(film.drawn(), told, "kept.tif");
    ASSERT_NE(turned.degrees_turned(), 0);
    EXPECT_EQ(turned.scale(), kept.scale());
    // A place in the picture goes with the picture.
    const SmallNegative small = small_negative(turned, 600), small_kept = small_negative(kept, 600);
    for (const Region& region : {Region{300, 300, 60, 40}, Region{1000, 650, 60, 40}, Region{700, 500, 9, 9}})
        EXPECT_NEAR(mean_density(small, turned, region).value, mean_density(small_kept, kept, region).value,
                    0.02);
    EXPECT_THROW(static_cast<void>(mean_density(small, turned, {0, 0, 20, 20})), Error);
}

TEST_F(SetUpright, AnotherFileInItsPlaceIsNoticed) {
    const Scan scan = opened(askew_film(2).drawn());
    EXPECT_NO_THROW(scan.require_unchanged());
    FilmScan other = askew_film(2);
    other.clear = 0.3;
    other.drawn().write_to_file((folder / "film.tif").c_str());
    EXPECT_THROW(scan.require_unchanged(), Error);
}

TEST_F(SetUpright, GrownItShowsTheFilmAroundTheFrame) {
    const FilmScan film = askew_film(2);
    const Scan scan = opened(film.drawn());
    const auto grown = scan.grown(12);
    ASSERT_TRUE(grown);
    EXPECT_EQ(grown->width(), scan.width() + 24);
    EXPECT_EQ(grown->frame().left, scan.frame().left - 12);
    const auto codes = codes_of(*grown);
    for (int x = 0; x < grown->width(); ++x)
        EXPECT_NEAR(grown->scale()[codes[std::size_t(x)]].value, 0, 0.01) << x;
    EXPECT_FALSE(scan.grown(2000));
}

TEST_F(SetUpright, MemoryIsReckonedForIt) {
    askew_film(2).drawn().write_to_file((folder / "film.tif").c_str());
    const std::uint64_t usual = memory_to_read(folder / "film.tif");
    EXPECT_GE(usual, memory_to_turn(1440, 1000, 2));
    EXPECT_GT(memory_to_turn(14400, 10000, 2), memory_to_turn(1440, 1000, 2));
}

}  // namespace
}  // namespace fogproof::tests
