// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The options that say how a scan is read, asked of the program: each against the arithmetic of its own
// definition, done on the scan by this test.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using vips::VImage;

const std::string kSeconds = "--exposure 9s ";

// T' of every patch, saved as a negative of its own.
template <class Law>
void save_changed(const PatchPrints& prints, const std::string& name, Law law) {
    std::vector<double> changed;
    for (const double light : PatchPrints::kLight) changed.push_back(law(light));
    save_patches(prints.program, name, changed);
}

TEST(ScanOptions, ClearFilmOfHalfTheLightIsHalfTheExposureTime) {
    const PatchPrints prints;
    save_changed(prints, "half.tif", [](double light) { return light / 2; });
    expect_same_print(prints.codes(kSeconds, "half.tif", "--whole --clear 0.5"), prints.codes(kSeconds));
    expect_same_print(prints.codes("--exposure 18s", "half.tif", "--whole --clear 1"),
                      prints.codes(kSeconds));
}

TEST(ScanOptions, ClearFilmMayBeShownByARegion) {
    const PatchPrints prints;
    save_changed(prints, "half.tif", [](double light) { return light / 2; });
    expect_same_print(prints.codes(kSeconds, "half.tif", "--whole --clear 2,2,16,30"),
                      prints.codes(kSeconds));
}

TEST(ScanOptions, ScannersBlackIsTakenOffBeforeTheLogarithm) {
    const PatchPrints prints;
    constexpr double kBlack = 0.02;
    save_changed(prints, "veiled.tif", [](double light) { return kBlack + (1 - kBlack) * light; });
    expect_same_print(prints.codes(kSeconds + "--black 0.02", "veiled.tif"), prints.codes(kSeconds));
    expect_another_print(prints.codes(kSeconds, "veiled.tif"), prints.codes(kSeconds));
}

TEST(ScanOptions, EncodingSaysWhatTheCodesStandFor) {
    const PatchPrints prints;
    // IEC 61966-2-1 for sRGB; a plain power; 16-bit codes that count down from density 4 over the range.
    save_changed(prints, "srgb.tif", [](double light) {
        return light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055;
    });
    save_changed(prints, "gamma.tif", [](double light) { return std::pow(light, 1 / 2.2); });
    save_changed(prints, "density.tif", [](double light) { return 1 + std::log10(light) / 4; });
    const auto linear = prints.codes(kSeconds + "--encoding linear");
    expect_same_print(linear, prints.codes(kSeconds));
    expect_same_print(prints.codes(kSeconds + "--encoding srgb", "srgb.tif"), linear);
    expect_same_print(prints.codes(kSeconds + "--encoding gamma22", "gamma.tif"), linear);
    expect_same_print(prints.codes(kSeconds + "--encoding density", "density.tif"), linear);
}

TEST(ScanOptions, MirrorTurnsLeftAndRight) {
    const PatchPrints prints;
    auto mirrored = prints.codes(kSeconds + "--mirror");
    std::ranges::reverse(mirrored);
    EXPECT_EQ(mirrored, prints.codes(kSeconds));
}

TEST(ScanOptions, FrameIsThePictureAndNothingElse) {
    const PatchPrints prints;
    // Without flare, which spreads the light of what is cut off.
    const auto whole = prints.codes(kSeconds + "--flare 0");
    ASSERT_EQ(prints.program
                  .run("print neg.tif --pack pack.toml -o cut.tif --exposure 9s --flare 0 --clear 1 "
                       "--frame 48,8,72,32")
                  .code,
              0);
    const VImage cut = VImage::new_from_file((prints.program / "cut.tif").c_str());
    EXPECT_EQ(cut.width(), 72);
    EXPECT_EQ(cut.height(), 32);
    const auto inside = patches_of(prints.program, "cut.tif", 3);
    for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(inside[i], whole[i + 2], kSamePrint);
}

TEST(ScanOptions, WholeLeavesNothingOut) {
    const Program program;
    program.write("pack.toml", "fogproof_pack = 1\n");
    FilmScan film;
    film.width = 720, film.height = 500, film.holder = 20;
    film.left = 80, film.top = 75, film.right = 640, film.bottom = 425;
    film.drawn().write_to_file((program / "film.tif").c_str());
    const auto size = [&](const std::string& options) {
        EXPECT_EQ(program.run("print film.tif --pack pack.toml --force -o out.tif " + options).code, 0);
        const VImage print = VImage::new_from_file((program / "out.tif").c_str());
        return std::pair{print.width(), print.height()};
    };
    EXPECT_EQ(size("--whole"), std::pair(720, 500));
    const auto [wide, high] = size("");
    EXPECT_NEAR(wide, 560, 8);
    EXPECT_NEAR(high, 350, 8);
    // The clear edge of the film round the frame, too, and it prints black.
    const auto [wider, higher] = size("--clear-edge");
    EXPECT_GT(wider, wide + 4);
    EXPECT_GT(higher, high + 4);
    const VImage print = VImage::new_from_file((program / "out.tif").c_str());
    EXPECT_LT(print.getpoint(wider / 2, 1).front(),
              print.extract_area(wider / 4, higher / 4, wider / 2, higher / 2).avg());
}

TEST(ScanOptions, APositiveDarkensWhereItIsDark) {
    const PatchPrints prints;
    const auto positive = prints.codes("--as positive --exposure +0", "neg.tif", "--whole");
    // The brightest patch of a positive is the print's lightest.
    for (std::size_t i = 1; i < positive.size(); ++i) EXPECT_LE(positive[i], positive[i - 1]) << i;
    EXPECT_GT(positive.front(), positive.back() + 10000);
}

TEST(ScanOptions, TheVirtualFilmHasTheSlopeAndRangeThatAreTold) {
    const PatchPrints prints;
    // Far above its toe the film's density goes with the slope times the log of the light, and white has the
    // range: D = slope log10(1 + L (10^(range/slope) - 1)).
    const auto film = [&](double slope, double range) {
        save_changed(prints, "film.tif", [=](double light) {
            return std::pow(1 + light * (std::pow(10, range / slope) - 1), -slope);
        });
        return prints.codes("--exposure 30s --encoding linear", "film.tif");
    };
    const auto positive = [&](const std::string& options) {
        return prints.codes("--as positive --encoding linear --exposure 30s " + options, "neg.tif",
                            "--whole");
    };
    expect_same_print(positive(""), film(0.6, 1.1));
    expect_same_print(positive("--film-range 1.5"), film(0.6, 1.5));
    expect_same_print(positive("--film-slope 0.9"), film(0.9, 1.1));
    expect_another_print(positive("--film-slope 0.9"), positive(""));
}

TEST(ScanOptions, ScansOverTheLimitAreRefusedBeforeTheyAreRead) {
    const PatchPrints prints;
    const auto answer = prints.program.run("print neg.tif --pack pack.toml -o big.tif --max-pixels 1000");
    EXPECT_NE(answer.code, 0);
    EXPECT_THAT(answer.err, HasSubstr("168 x 48"));
    EXPECT_EQ(
        prints.program.run("print neg.tif --pack pack.toml -o big.tif --whole --clear 1 --max-pixels 20000")
            .code,
        0);
}

}  // namespace
}  // namespace fogproof::tests
