// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The rules of the trade as outcomes of the whole chain, none of them an input. All are common practice, no
// source, unless a source is named.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "choose/printing.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "print/clearing.hpp"
#include "print/response.hpp"
#include "support/examples.hpp"
#include "support/recipes.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using examples::fogged_pack;
using examples::ordinary_frame;

struct Best {
    double grade = 0, percent = 0, stops = 0, error = std::numeric_limits<double>::infinity();
};

// The print closest to the fresh one, by trying every grade, depth of bleach and exposure. Stops count from
// the fresh print's exposure.
class Search {
  public:
    explicit Search(const Printing& printing) : printing_(printing), tones_(printing.frame().gathered(96)) {
        const Pack& pack = printing.pack();
        const double mean = printing.frame().mean_transmitted(pack.darkroom.enlarger.callier);
        const auto target = fresh_target(printing.frame(), tones_, pack, printing.paper());
        wanted_ = target.lightness;
        fresh_log_h_ = target.exposure.value;
        for (const Tone& tone : tones_)
            log_light_.push_back(std::log10(transmitted(tone.density, mean, pack.darkroom.enlarger)));
    }

    [[nodiscard]] Best best(const std::vector<double>& grades, const std::vector<double>& percents,
                            std::optional<double> develop_s = std::nullopt) const {
        Best best;
        for (const double grade : grades)
            for (const double percent : percents) {
                Recipe recipe = recipe_of(grade, ClearingPercent{percent});
                recipe.develop_s = develop_s;
                try_exposures(recipe, {grade, percent}, best);
            }
        return best;
    }

  private:
    void try_exposures(const Recipe& recipe, Best candidate, Best& best) const {
        const Pack& pack = printing_.pack();
        const Response response(printing_.paper(), pack.darkroom.enlarger,
                                print_steps(pack, printing_.paper(), recipe, Seconds{1}));
        const MonotoneCurve lightness = response.lightness_between({fresh_log_h_ - 3}, {fresh_log_h_ + 1});
        for (candidate.stops = -1; candidate.stops <= 2.5; candidate.stops += 1.0 / 12) {
            double sum = 0;
            for (std::size_t i = 0; i < tones_.size(); ++i)
                sum += tones_[i].share *
                       std::pow(lightness(fresh_log_h_ + candidate.stops * std::log10(2.0) + log_light_[i]) -
                                    wanted_[i],
                                2);
            candidate.error = std::sqrt(sum);
            if (candidate.error < best.error) best = candidate;
        }
    }

    const Printing& printing_;
    std::vector<Tone> tones_;
    std::vector<double> wanted_, log_light_;
    double fresh_log_h_ = 0;
};

const std::vector<double> kGrades{0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5};
const std::vector<double> kDepths{40, 50, 60, 70, 80, 90, 100, 110, 120};

double border_lightness(const Printing& printing, const Recipe& recipe) {
    return printing.print(printing.proof(recipe).steps).border().lab.l;
}

// ISO 6846, introduction: paper range equals the effective density range of the negative. "Theory & Practice"
// (L. P. Clerc, c. 1937), s. 502: paper of exposure ratio 30:1 fits a negative of opacity ratio 30:1 and
// gives white and full black; with 20:1 it cannot give both.
TEST(Choose, PaperOfThirtyToOneFitsANegativeOfThirtyToOne) {
    Slips slips;
    slips.white_density = slips.blank_density = 0.08;
    slips.contrast = Contrast::graded;
    slips.iso_range = 100 * std::log10(30.0);
    Pack pack = pack_from_slips(slips);
    pack.darkroom.anchored = true;
    pack.darkroom.enlarger.flare = 0;
    const PaperModel paper = paper_model(pack);
    PrintSteps steps;
    steps.exposures = {{Filter{}, {1}}};
    steps.develop = {0, 90, 20};
    const auto numbers = Response(paper, pack.darkroom.enlarger, steps).numbers();
    ASSERT_TRUE(numbers);
    const Response response(paper, pack.darkroom.enlarger, steps);
    const auto density_at = [&](double log_h) { return response.patch({log_h}).density.value; };
    // The densest tone of each negative set at T, the first printable tone; where does its thinnest fall?
    const double black =
        pack.sheet.white_density + 0.90 * (response.maximum().value - response.minimum().value);
    EXPECT_NEAR(density_at(numbers->toe.value + std::log10(30.0)), black, 0.01);
    EXPECT_LT(density_at(numbers->toe.value + std::log10(20.0)), black - 0.05);
}

TEST(Choose, FreshTargetTakesTheGradeOfTheNegativesRange) {
    const Pack pack = fogged_pack(0.3);
    for (const double range : {0.8, 1.0, 1.2, 1.4}) {
        const Printing printing(pack, ordinary_frame(0.1, range));
        const double effective =
            printing.frame().quantile(kDenseEnd).value - printing.frame().quantile(kThinEnd).value;
        // Flare of one percent shortens the range at the printing a little.
        EXPECT_NEAR(printing.target().iso_range, 100 * effective, 7);
        EXPECT_LT(printing.target().iso_range, 100 * effective);
    }
}

// A print bleached until its border is clear starts from about one stop more and a softer filter than the
// fresh print. The rule wants a starvation of 0.10 and more, and so does not go with the other one, that
// mid-tones lighten less than blanks (fogproof/bleach/bleach.hpp).
TEST(Choose, BleachingWantsAboutAStopMoreAndASofterFilter) {
    for (const double starvation : {0.10, 0.12})
        for (const double fog : {0.2, 0.35, 0.55}) {
            Pack pack = fogged_pack(fog);
            pack.bleach.starvation = starvation;
            const Printing printing(pack, ordinary_frame());
            const Best best = Search(printing).best(kGrades, {100});
            EXPECT_NEAR(best.stops, 1, 0.26) << "fog " << fog << ", K " << starvation;
            const double softer = iso_range_of_grade(best.grade) - printing.target().iso_range;
            EXPECT_NEAR(softer, 28, 8)
                << "a grade to a grade and a half; fog " << fog << ", K " << starvation;
        }
}

// As far as the bleach that spares the mid-tones can keep that rule too.
TEST(Choose, ABleachThatSparesTheMidTonesWantsHalfAStopToAStopMore) {
    for (const double fog : {0.2, 0.35, 0.55}) {
        const Printing printing(fogged_pack(fog), ordinary_frame());
        const Best best = Search(printing).best(kGrades, {100});
        EXPECT_GE(best.stops, 0.4) << "fog " << fog;
        EXPECT_LE(best.stops, 1) << "fog " << fog;
        EXPECT_GE(iso_range_of_grade(best.grade) - printing.target().iso_range, 10) << "fog " << fog;
    }
}

// Wherever the search is free to leave some veil, it still wants more light than fresh paper and bleaches
// most of it away.
TEST(Choose, ClosestPrintIsExposedLongerAndMostlyCleared) {
    for (const double fog : {0.2, 0.35, 0.55}) {
        const Printing printing(fogged_pack(fog), ordinary_frame());
        const Search search(printing);
        const Best best = search.best(kGrades, kDepths);
        EXPECT_GE(best.stops, 0.25) << "fog " << fog;
        EXPECT_GE(best.percent, 50) << "fog " << fog;
        EXPECT_LT(best.error, 0.4 * search.best(kGrades, {0}).error) << "fog " << fog;
    }
}

TEST(Choose, GradeFourAndAHalfIsTooHardOnceBleachedWhereThreeAndAHalfIsRight) {
    // A negative and a fog for which the best grade without bleach is about 4 1/2.
    const Printing printing(fogged_pack(0.2), ordinary_frame(0.15, 0.95));
    const Search search(printing);
    EXPECT_NEAR(search.best(kGrades, {0}).grade, 4.5, 0.5);
    const double grade = search.best(kGrades, kDepths).grade;
    EXPECT_NEAR(grade, 3.5, 0.5);
    EXPECT_LT(search.best({3.5}, kDepths).error, 0.6 * search.best({4.5}, kDepths).error);
}

TEST(Choose, SixtySecondsOfDevelopmentInsteadOfNinetyIsNearlyTheSameAfterBleaching) {
    const Printing printing(fogged_pack(0.3), ordinary_frame());
    const Search search(printing);
    constexpr double kNearly = 0.3;  // L* rms: well below what an eye notices between two prints side by side
    EXPECT_NEAR(search.best(kGrades, kDepths, 60).error, search.best(kGrades, kDepths).error, kNearly);
}

TEST(Choose, RestrainedFoggedSheetStillShowsGreyAndPaysInSpeed) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    Recipe recipe = recipe_of(2, Seconds{0});
    double lightness = border_lightness(printing, recipe),
           seconds = printing.proof(recipe).exposures[0].value;
    const double fixed_only = printing.print(printing.proof(recipe).steps).fixed_only().lab.l;
    for (const double ml_l : {10.0, 20.0, 40.0}) {
        recipe.restrainer_ml_l = ml_l;
        const double now = border_lightness(printing, recipe),
                     needs = printing.proof(recipe).exposures[0].value;
        EXPECT_GT(now, lightness);
        EXPECT_LT(now, fixed_only - 1) << "one L* is a step that shows";
        EXPECT_GT(needs, seconds);
        lightness = now;
        seconds = needs;
    }
}

TEST(Choose, BleachTakesThePalestTonesFirstAndInTheEndEverything) {
    Pack pack = fogged_pack(0.35);
    pack.sheet.stain = 0;  // silver alone
    const PaperModel paper = paper_model(pack);
    const double clearing = *clearing_dose(paper, {0, 90, 20});
    // Blank, highlight, mid-tone and shadow of a print.
    const std::vector<EaselLight> tones{{0, 0}, {1.5, 0}, {4, 0}, {40, 0}};
    const auto lightness = [&](const EaselLight& light, double dose) {
        PrintSteps steps;
        steps.develop = {0, 90, 20};
        steps.finishing.bleach_dose = dose;
        return PrintModel(paper, pack.darkroom.enlarger, steps, 0).lit(light).lab.l;
    };
    const auto share_lost = [&](const EaselLight& light, double dose) {
        const double silver = Developer(paper.emulsion, {0, 90, 20}).developed(light).density.value;
        return bleached({{silver}}, paper.bleach.starvation, dose).lost.value / silver;
    };
    for (const double percent : {20.0, 60.0, 100.0})
        for (std::size_t i = 1; i < tones.size(); ++i)
            EXPECT_GT(share_lost(tones[i - 1], percent / 100 * clearing),
                      share_lost(tones[i], percent / 100 * clearing));
    // Short of clearing the blank brightens most, the shadow least.
    const double early = 0.5 * clearing;
    EXPECT_GT(lightness(tones[0], early) - lightness(tones[0], 0),
              lightness(tones[3], early) - lightness(tones[3], 0));
    // Past it the blank stands still while mid-tones and then shadows go, in the end all.
    const double late = 1.5 * clearing;
    // The law itself leaves the blank 0.02 above white at clearing, which is 1.6 L* on this paper.
    const double blank_gain = lightness(tones[0], late) - lightness(tones[0], clearing);
    EXPECT_LT(blank_gain, 1.6);
    EXPECT_GT(lightness(tones[2], late) - lightness(tones[2], clearing), 3 * blank_gain);
    EXPECT_NEAR(lightness(tones[3], 60 * clearing), lightness(tones[0], 60 * clearing), 3.0)
        << "but for stain";
}

TEST(Choose, PullWhenTheBlankStopsGettingBrighter) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    const auto blank = [&](double percent) {
        return border_lightness(printing, recipe_of(2, ClearingPercent{percent}));
    };
    EXPECT_GT(blank(30) - blank(20), 1.5);
    EXPECT_LT(std::abs(blank(110) - blank(100)), 1) << "one L* is a step that shows";
}

TEST(Choose, BleachingRaisesContrast) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    double last = printing.proof(recipe_of(2, Seconds{0})).iso_range;
    for (const double percent : {50.0, 100.0, 150.0}) {
        const double now = printing.proof(recipe_of(2, ClearingPercent{percent})).iso_range;
        EXPECT_LT(now, last);
        last = now;
    }
}

TEST(Choose, ClearedSheetEndsAHairDarkerAndWarmerThanAFixedOne) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    const PrintModel print = printing.print(printing.proof(recipe_of(2, ClearingPercent{100})).steps);
    const Patch cleared = print.border(), fixed = print.fixed_only();
    EXPECT_GT(cleared.density.value, fixed.density.value);
    EXPECT_LT(cleared.density.value, fixed.density.value + 0.04)
        << "a hair, less than the first printable tone";
    EXPECT_GT(cleared.lab.b, fixed.lab.b);
}

TEST(Choose, OneBleachTimeHoldsOnlyForNegativesOfLikeTonality) {
    const Pack pack = fogged_pack(0.35);
    const auto best_depth = [&](double thinnest, double range) {
        const Printing printing(pack, ordinary_frame(thinnest, range));
        return Search(printing).best(kGrades, kDepths).percent;
    };
    EXPECT_NEAR(best_depth(0.15, 0.80), best_depth(0.16, 0.82), 10);
    EXPECT_GT(std::abs(best_depth(0.15, 0.80) - best_depth(0.15, 0.60)), 10);
}

TEST(Choose, OverBleachedPrintComesBackFogAndAll) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    Recipe recipe = recipe_of(2, Seconds{0});
    const Proof plain = printing.proof(recipe);
    recipe.exposures[0].amount = plain.exposures[0];
    recipe.bleach = ClearingPercent{200};
    recipe.redevelop_s = 240;
    const Proof rescued = printing.proof(recipe);
    EXPECT_NEAR(printing.print(rescued.steps).border().density.value,
                printing.print(plain.steps).border().density.value, 0.02);
    // The paper's redeveloped silver is warmer, which the visual reading of a black sees a little.
    EXPECT_NEAR(rescued.extent.darkest.value, plain.extent.darkest.value, 0.03);
}

TEST(Choose, YellowBathMakesTonesHardToJudge) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    const Proof proof = printing.proof(recipe_of(2, ClearingPercent{60}));
    const double strength = working_strength_g_l(printing.pack().darkroom.bath);
    const Patch dry = printing.print(proof.steps).border();
    const Patch wet = printing.print(proof.steps, BathLayer{strength, 5}).border();
    EXPECT_GT(wet.lab.b, dry.lab.b + 20) << "a strong yellow";
    EXPECT_LT(wet.lab.l, dry.lab.l);
}

TEST(Choose, WeakerBathIsSlowEnoughToWatch) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    const auto seconds = [&](double parts) {
        Recipe recipe = recipe_of(2, ClearingPercent{100});
        recipe.bleach_parts = parts;
        return printing.proof(recipe).bleach.value;
    };
    EXPECT_LT(seconds(10), 30) << "too quick to stop by eye";
    EXPECT_NEAR(seconds(50), 90, 30) << "a minute to two";
    EXPECT_GT(seconds(200), 300);
}

}  // namespace
}  // namespace fogproof::tests
