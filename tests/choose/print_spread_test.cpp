// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What no number of a pack explains, on prints, exposures and bleach times.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "choose/print_spread.hpp"
#include "choose/starting_point.hpp"
#include "choose/wanted.hpp"
#include "pack/schema.hpp"
#include "pack/uncertainty.hpp"
#include "print/clearing.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {
using examples::fogged_pack;
using examples::ordinary_frame;

namespace {

// A pack whose numbers are all known exactly, but whose sheets differ.
Pack scattered(double sheet_scatter) {
    Pack pack = fogged_pack(0.35);
    for (const auto& row : pack_numbers()) pack.knowledge[row.name()] = {Origin::measured, 0.0};
    pack.sheet_scatter = sheet_scatter;
    return pack;
}

StartingPoint best_with(double sheet_scatter) {
    const Printing printing(scattered(sheet_scatter), ordinary_frame());
    SearchBounds bounds = usual_bounds(printing);
    bounds.softest = bounds.hardest = 1;
    return starting_points(printing, as_fresh(printing), bounds).best;
}

double log_half_width(const Interval& seconds) {
    return std::log10(seconds.high / seconds.value);
}

}  // namespace

TEST(Spread, DarkenedLightnessIsThatOfTheGreaterDensity) {
    for (const double density : {0.05, 0.4, 1.0, 2.0, 2.6})  // the last two on the straight line of CIE 15
        EXPECT_NEAR(darkened(lightness({density}), {0.1}), lightness({density + 0.1}), 1e-9);
}

// dL*/dD = -(L* + 16) ln 10 / 3, from CIE 15:2004, L* = 116 Y^(1/3) - 16 with Y = 10^-D; and by what their
// own light makes of the tone, which a negative as much denser would.
TEST(Spread, SheetsThatDifferBySomeDensityAndLightDifferByTheirLightness) {
    constexpr double kScatter = 0.01;
    const Printing printing(scattered(kScatter), ordinary_frame());
    Recipe recipe;
    recipe.exposures = {{2, Stops{0}}};
    const Proof proof = printing.proof(recipe);
    const PrintSpread spread = print_spread(printing, proof);
    const PrintModel print = printing.print(proof.steps);
    const double half_of_unit = 1.96 * kScatter * std::numbers::ln10 / 3;
    constexpr double kBent = 0.02;  // relative: the cube root bends within 0.01 D by less than 1 %
    for (const double share : {0.02, 0.5, 0.98}) {
        const NegativeDensity at = printing.frame().quantile(share);
        constexpr double kBeside = 0.01;
        const auto beside = [&](double by) { return print.patch({at.value + by}).lab.l; };
        const double by_light = (beside(kBeside) - beside(-kBeside)) / (2 * kBeside) /
                                printing.pack().darkroom.enlarger.callier * 1.96 * kSheetInLight * kScatter;
        const double expected = std::hypot((print.patch(at).lab.l + 16) * half_of_unit, by_light);
        EXPECT_NEAR(spread.lightness(at.value), expected, kBent * expected);
    }
    EXPECT_NEAR(spread.border, (print.border().lab.l + 16) * half_of_unit, kBent * spread.border);
}

// A curve of gradient g turns a density into that density over g of log exposure; the mean gradient of paper
// is the density range, 0.04 to 90 % of black, over ISO R / 100 (ISO 6846).
TEST(Spread, SheetsThatDifferMakeExposuresAndBleachTimesDoubtful) {
    EXPECT_EQ(log_half_width(best_with(0).exposure_s), 0);
    const StartingPoint once = best_with(0.01), twice = best_with(0.02);
    const double stops = log_half_width(once.exposure_s);
    EXPECT_NEAR(log_half_width(twice.exposure_s), 2 * stops, 0.1 * stops);
    const Printing printing(scattered(0.01), ordinary_frame());
    const double black = printing.print(once.proof.steps).patch({0}).density.value;
    const double gradient = 0.9 * black / (once.proof.iso_range / 100);
    EXPECT_GT(stops, 1.96 * 0.01 / (2 * gradient)) << "no part of the curve is twice as steep";
    EXPECT_LT(stops, 1.96 * 0.01 / (gradient / 4));
    EXPECT_GT(log_half_width(once.bleach_s), 0);
    EXPECT_LT(best_with(0.05).first_sheet_good, 0.99);
}

// Design equation of the bleach, order 1: x = (A - A1) + K ln(A/A1).
TEST(Spread, DarkerBlankNeedsTheDoseOfItsSilver) {
    const Pack pack = scattered(0);
    const PaperModel paper = paper_model(pack);
    const DevelopStep step{0, 90, 20};
    const PrintDensity blank = paper.sheet.density(Developer(paper.emulsion, step).developed(EaselLight{}));
    const double from = paper.sheet.layer_showing(blank + PrintDensity{0.03}).value;
    const double to = paper.sheet.layer_showing(paper.sheet.white() + PrintDensity{kClearWithin}).value;
    EXPECT_NEAR(clearing_dose(paper, step, {0.03}).value(),
                from - to + paper.bleach.starvation * std::log(from / to), 1e-6);
    EXPECT_GT(clearing_dose(paper, step, {0.03}), clearing_dose(paper, step));
}

}  // namespace
}  // namespace fogproof::tests
