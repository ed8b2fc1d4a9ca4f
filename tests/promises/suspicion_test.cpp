// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Scans that are not what they are taken for are warned of, good ones are not; asked of the program, with
// scans drawn here. tests/suspicion.sh does the same with photographs.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>

#include "base/region.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using vips::VImage;

// A negative with clear edge and holder: hills under a sky, shadows that fade into clear film.
FilmScan film() {
    FilmScan scan{.width = 720,
                  .height = 500,
                  .holder = 20,
                  .clear = 0.28,
                  .left = 80,
                  .top = 75,
                  .right = 640,
                  .bottom = 425};
    scan.picture_law = [](double u, double v) {
        const double sky = 1.15 + 0.12 * std::sin(5 * u + 2 * v);
        const double land = 0.08 + 0.45 * std::abs(std::sin(9 * u + 5 * v) * std::cos(4 * u - 7 * v));
        return v < 0.45 + 0.1 * std::sin(5 * u) ? sky : land;
    };
    return scan;
}

// IEC 61966-2-1.
double srgb(double light) {
    return light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055;
}

class Suspicion : public ::testing::Test {
  protected:
    Program program;
    const FilmScan good = film();

    void SetUp() override {
        ASSERT_EQ(program.run("pack new --white 0.08 --blank 0.3 --name box -o box.toml").code, 0);
    }
    // Saves what a law makes of the good scan's light, 0 to 1, as 16-bit codes in as many bands.
    void save(const std::string& name, const std::function<double(double light, int band)>& law,
              int bands = 1, const Region& part = {0, 0, 720, 500}) {
        const VImage drawn = good.drawn().copy_memory();
        const auto* codes = static_cast<const std::uint16_t*>(drawn.data());
        raster<std::uint16_t>(
            part.width, part.height, bands,
            [&](int x, int y, int band) {
                const double light = codes[(y + part.top) * 720 + x + part.left] / 65535.0;
                return std::lround(65535 * std::clamp(law(light, band), 0.0, 1.0));
            },
            bands == 1 ? VIPS_INTERPRETATION_GREY16 : VIPS_INTERPRETATION_RGB16)
            .write_to_file((program / name).c_str());
    }
    std::string said(const std::string& name, const std::string& options = {}) {
        const auto answer =
            program.run("--quiet print " + name + " --pack box.toml --size 64 --force -o out.png " + options);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return answer.err;
    }
    static constexpr Region kInside{90, 85, 540, 330};
};

TEST_F(Suspicion, GoodScansAreNotWarnedOf) {
    save("linear.tif", [](double light, int) { return light; });
    EXPECT_EQ(said("linear.tif"), "");
    save(
        "rgb.tif", [](double light, int band) { return light * (band == 2 ? 0.95 : 1.0); }, 3);
    EXPECT_EQ(said("rgb.tif"), "");
    // An edge without a holder.
    save("edge.tif", [](double light, int) { return light; }, 1, {40, 40, 640, 420});
    EXPECT_EQ(said("edge.tif"), "");
    // Cut to the frame, with clear film told.
    save(
        "inside.tif", [](double light, int) { return light; }, 1, kInside);
    EXPECT_EQ(said("inside.tif", "--clear 0.48"), "");
}

TEST_F(Suspicion, TheDemoIsNotWarnedOf) {
    ASSERT_EQ(program.run("demo scenario --megapixels 1").code, 0);
    const auto answer =
        program.run("--quiet print scenario/negative.tif --pack box.toml --size 64 -o out.png");
    EXPECT_EQ(answer.err, "");
}

TEST_F(Suspicion, CodesWithGammaTakenAsLinear) {
    save("gamma.tif", [](double light, int) { return srgb(light); });
    EXPECT_THAT(said("gamma.tif"), AllOf(HasSubstr("warning: gamma.tif: the scan is taken as linear"),
                                         HasSubstr("too short"), HasSubstr("--encoding srgb")));
    EXPECT_EQ(said("gamma.tif", "--encoding srgb"), "");
    EXPECT_THAT(said("gamma.tif", "--encoding linear"), Not(HasSubstr("taken as linear")));
    save("power.tif", [](double light, int) { return std::pow(light, 1 / 2.2); }, 1, {40, 40, 640, 420});
    EXPECT_THAT(said("power.tif"), HasSubstr("taken as linear"));
}

TEST_F(Suspicion, InvertedScans) {
    save("inverted.tif", [](double light, int) { return 1 - light; });
    EXPECT_THAT(said("inverted.tif"), AllOf(HasSubstr("looks inverted"), HasSubstr("--as positive")));
    EXPECT_EQ(said("inverted.tif", "--as positive"), "");
    save("coded.tif", [](double light, int) { return 1 - srgb(light); });
    EXPECT_THAT(said("coded.tif"), HasSubstr("looks inverted"));
}

TEST_F(Suspicion, PicturesAndNegativesTakenForEachOther) {
    // The scene again, as a picture: white is the densest of the negative, on a slope of 0.6.
    const auto picture = [](double light, int) {
        const double density = -std::log10(std::max(light, 1e-4)) - 0.32;
        return srgb(std::pow(10.0, (density - 1.28) / 0.6));
    };
    save("picture.tif", picture, 1, kInside);
    EXPECT_THAT(said("picture.tif", "--encoding srgb"),
                AllOf(HasSubstr("as in a picture"), HasSubstr("--as positive")));
    EXPECT_EQ(said("picture.tif", "--encoding srgb --as positive"), "");
    EXPECT_THAT(said("picture.tif", "--encoding srgb --as negative"), Not(HasSubstr("picture,")));
    save("linear.tif", [](double light, int) { return light; });
    EXPECT_THAT(said("linear.tif", "--as positive"), HasSubstr("looks like a negative"));
}

// Densities of a colour negative's base in red, green and blue: common values, from memory.
constexpr double kMask[] = {0.25, 0.65, 0.90};

TEST_F(Suspicion, AnOrangeBaseIsReadAsPaperSeesIt) {
    const auto masked = [this](double light, int band) {
        return light * std::pow(10.0, good.clear - kMask[band]);
    };
    save("mask.tif", masked, 3);
    EXPECT_THAT(said("mask.tif"),
                AllOf(HasSubstr("the film base is orange"), HasSubstr("0.29 in red"),
                      HasSubstr("0.69 in green"), HasSubstr("0.94 in blue"), HasSubstr("--channels")));
    EXPECT_EQ(said("mask.tif", "--channels blue-green"), "");
    EXPECT_EQ(said("mask.tif", "--channels luminance"), "");
}

TEST_F(Suspicion, BlueAndGreenAloneMakeTheDensityOfAMaskedScan) {
    // Red shows another picture altogether; paper is blind to it.
    const auto law = [this](double light, int band) {
        const double red = std::pow(light, 0.4) * 0.3;
        return band == 0 ? red : light * std::pow(10.0, good.clear - kMask[band]);
    };
    save("strange.tif", law, 3);
    // The same light by hand: green and blue count alike through the base.
    const double green = std::pow(10.0, -kMask[1]), blue = std::pow(10.0, -kMask[2]);
    const double both = 2 * green * blue / (green + blue);
    save("grey.tif", [&](double light, int) { return light * std::pow(10.0, good.clear) * both; });
    const std::string options = " --pack box.toml --size 64 --force --exposure 10s --black-time 8 ";
    ASSERT_EQ(program.run("print strange.tif -o strange.png --channels blue-green" + options).code, 0);
    ASSERT_EQ(program.run("print grey.tif -o grey.png" + options).code, 0);
    const VImage one = VImage::new_from_file((program / "strange.png").c_str());
    const VImage other = VImage::new_from_file((program / "grey.png").c_str());
    constexpr double kRounded = 400;  // of 65535: 16-bit codes of the two scans are rounded differently
    EXPECT_LT((one - other).abs().max(), kRounded);
}

TEST_F(Suspicion, StretchedLevels) {
    const auto stretched = [](double light, int) { return (light - 0.036) / (0.36 - 0.036); };
    save("levels.tif", stretched, 1, kInside);
    EXPECT_THAT(said("levels.tif"), AllOf(HasSubstr("as after levels or curves"), HasSubstr("at full scale"),
                                          HasSubstr("without any light")));
    // Codes skipped, though nothing is cut off.
    save(
        "comb.tif", [](double light, int) { return std::floor(light * 4096) * 1.37 / 4096; }, 1, kInside);
    EXPECT_THAT(said("comb.tif", "--clear 0.6"), HasSubstr("of the codes between its tones are missing"));
    // A scanner of 12 bits skips codes too, but evenly.
    save(
        "twelve.tif", [](double light, int) { return std::floor(light * 4095) * 16 / 65535; }, 1, kInside);
    EXPECT_EQ(said("twelve.tif", "--clear 0.48"), "");
}

TEST_F(Suspicion, NoClearFilmSaysByHowManyStopsAtMost) {
    save(
        "cropped.tif", [](double light, int) { return light; }, 1, kInside);
    // Base 0.28 and the light's 60000 of 65535 are 0.32; the thinnest tone 0.08 more, less some grain: 0.38.
    EXPECT_THAT(said("cropped.tif"), AllOf(HasSubstr("shows no clear film"),
                                           HasSubstr("up to 1.3 stops too long"), HasSubstr("--clear")));
}

// A strip of film, scanned whole: two frames and clear film between them, or two scans with their holder.
TEST_F(Suspicion, SeveralPicturesOnOneScan) {
    FilmScan strip = film();
    const auto one = strip.picture_law;
    for (const double gap : {0.01, 0.04}) {
        strip.picture_law = [&](double u, double v) {
            const double half = (1 - gap) / 2;
            return u < half ? one(u / half, v) : u > 1 - half ? one((1 - u) / half, v) : 0.0;
        };
        strip.drawn().write_to_file((program / "strip.tif").c_str());
        const std::string warned = said("strip.tif");
        EXPECT_THAT(warned, HasSubstr("seems to hold 2 pictures with film between them"));
        const std::string frame = warned.substr(warned.find("--frame ") + 8);
        const std::string first = frame.substr(0, frame.find(' '));
        EXPECT_THAT(said("strip.tif", "--frame " + first), Not(HasSubstr("pictures with film")));
        EXPECT_THAT(said("strip.tif", "--whole"), Not(HasSubstr("pictures with film")));
    }
    // One picture with a clear pole across it that does not halve it.
    strip.picture_law = [&](double u, double v) { return u > 0.3 && u < 0.33 ? 0.0 : one(u, v); };
    strip.drawn().write_to_file((program / "pole.tif").c_str());
    EXPECT_THAT(said("pole.tif"), Not(HasSubstr("pictures with film")));
}

}  // namespace
}  // namespace fogproof::tests
