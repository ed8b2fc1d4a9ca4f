// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The bleach that nobody measured keeps the trade's rule (common practice, no source): "bleach takes the
// palest tones first: blanks and highlights rise to the paper's own white, mid-tones lighten less, shadows
// least", up to clearing.
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "fogproof/print/print_model.hpp"
#include "fogproof/print/working_curve.hpp"
#include "pack/draws.hpp"
#include "pack/schema.hpp"
#include "pack/uncertainty.hpp"
#include "print/clearing.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// D; a tone in the middle of a print before it is bleached, and a shadow that still shows detail.
constexpr double kMidTone = 0.9, kShadow = 1.5;

// CIE 15, from memory.
double cie_lightness(PrintDensity density) {
    const double y = std::pow(10.0, -density.value);
    return y > 216.0 / 24389 ? 116 * std::cbrt(y) - 16 : 24389.0 / 27 * y;
}

// Lightness that a dose gives to the blank, a mid-tone, a shadow and black, and the share of its density that
// black keeps.
struct Gains {
    double blank, mid_tone, shadow, black, black_kept;
};

Gains gains(const PaperModel& paper, const DevelopStep& step, double dose) {
    const Developer developer(paper.emulsion, step);
    const auto after = [&](DevelopedSilver silver) {
        const BleachedSilver thinner = bleached(silver, paper.bleach, dose);
        return visual_density(paper.sheet.reflectance(redeveloped(thinner, paper.redevelop, {0})));
    };
    const auto gain = [&](DevelopedSilver silver) {
        return cie_lightness(after(silver)) - cie_lightness(paper.sheet.density(silver));
    };
    const DevelopedSilver black{developer.max_density()};
    return {gain(developer.developed(EaselLight{})), gain({paper.sheet.layer_showing({kMidTone})}),
            gain({paper.sheet.layer_showing({kShadow})}), gain(black),
            after(black).value / paper.sheet.density(black).value};
}

bool keeps_the_rule(const Gains& g) {
    return g.blank > g.mid_tone && g.mid_tone > g.shadow && g.shadow > g.black;
}

std::vector<Gains> up_to_clearing(const Pack& pack) {
    const PaperModel paper = paper_model(pack);
    const DevelopStep step = nominal_step(pack.development);
    std::vector<Gains> all;
    if (const auto clearing = clearing_dose(paper, step))
        for (const double share : {0.25, 0.5, 0.75, 1.0})
            all.push_back(gains(paper, step, share * *clearing));
    return all;
}

}  // namespace

TEST(BleachRule, BlanksGainMostLightnessMidTonesLessShadowsLeast) {
    for (const double fog : {0.2, 0.35, 0.5})
        for (const Gains& g : up_to_clearing(examples::fogged_pack(fog))) {
            EXPECT_TRUE(keeps_the_rule(g)) << "fog " << fog << ": " << g.blank << ", " << g.mid_tone << ", "
                                           << g.shadow << ", " << g.black;
            EXPECT_LT(g.shadow, 0.6 * g.blank) << "fog " << fog;
            EXPECT_GT(g.black_kept, 0.8) << "fog " << fog;
        }
}

// The doubt is in the logarithm of K; order and pace of the bleach are doubtful too. At K = 0.15 one draw in
// twenty keeps the rule.
TEST(BleachRule, IsKeptByMostPapersThatAPackMayBe) {
    constexpr std::size_t kDraws = 400;
    double all = 0, whole = 0, blank_over_shadow = 0, by_a_third = 0;
    for (const PackDraw& draw : draws_of(examples::fogged_pack(0.35), kDraws)) {
        const auto steps = up_to_clearing(draw.pack);
        if (steps.empty()) continue;
        const Gains& cleared = steps.back();
        ++all;
        whole += std::ranges::all_of(steps, keeps_the_rule);
        blank_over_shadow += cleared.blank > cleared.shadow && cleared.mid_tone > cleared.shadow;
        by_a_third += cleared.mid_tone < 4.0 / 3 * cleared.blank;
    }
    ASSERT_GT(all, 0.95 * kDraws);
    EXPECT_GT(whole / all, 0.48);
    EXPECT_GT(by_a_third / all, 0.75) << "the mid-tone gains no more than a third over the blank";
    EXPECT_GT(blank_over_shadow / all, 0.8);
    std::printf("rule kept: %.2f whole, %.2f within a third, %.2f blank and mid-tone over shadow\n",
                whole / all, by_a_third / all, blank_over_shadow / all);
}

// 1+50 is slow enough to watch and stop by eye (common practice, no source): a minute or two.
TEST(BleachRule, WatchableTimesClearAFoggedSheet) {
    for (const double fog : {0.2, 0.35, 0.5}) {
        const Pack pack = examples::fogged_pack(fog);
        const PaperModel paper = paper_model(pack);
        const double seconds = bleach_time(paper.bleach, pack.darkroom.bath,
                                           clearing_dose(paper, nominal_step(pack.development)).value())
                                   .value;
        EXPECT_GT(seconds, 40) << "fog " << fog;
        EXPECT_LT(seconds, 180) << "fog " << fog;
    }
}

// K cannot be nil or below: a draw of it lies as many times above as below.
TEST(BleachRule, DoubtOfStarvationIsOneOfItsLogarithm) {
    const PackNumber& row = *pack_number("bleach.starvation");
    for (const double value : {BleachRate{}.starvation, 0.15}) {
        Pack pack = examples::certain({});
        pack.knowledge.erase("bleach.starvation");
        pack.bleach.starvation = value;
        const double factor = 1 + deviation_of(pack, row) / value;
        double square = 0, mean = 0;
        const auto draws = draws_of(pack, 256);
        for (const PackDraw& draw : draws) {
            const double log_off = std::log(draw.pack.bleach.starvation / value);
            mean += log_off / 256;
            square += log_off * log_off / 256;
        }
        EXPECT_NEAR(mean, 0, 1e-9);
        EXPECT_NEAR(std::sqrt(square), std::log(factor), 1e-6);
        EXPECT_NEAR(factor, 2, 1e-9) << "the same whatever the default was when the pack was written";
    }
}

}  // namespace fogproof::tests
