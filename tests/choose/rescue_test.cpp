// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What redevelopment brings back of a print that was left in the bleach.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "choose/rescue.hpp"
#include "choose/starting_point.hpp"
#include "choose/wanted.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/schema.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using examples::fogged_pack;
using examples::ordinary_frame;

// Common practice, no source: fully redeveloped, an over-bleached print returns as it was, fog and all;
// halfway its image is back while the border still is lighter than it was.
TEST(Rescue, RedevelopmentBringsBackImageAndFogTogether) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    Recipe recipe;
    recipe.exposures = {{1.5, Stops{0}}};
    const Proof plain = printing.proof(recipe, printing.target().time);
    const Rescue saved = rescue(printing, plain, {400}, printing.fresh());
    for (std::size_t i = 1; i < saved.steps.size(); ++i) {
        EXPECT_GT(saved.steps[i].border.value, saved.steps[i - 1].border.value);
        EXPECT_GT(saved.steps[i].proof.extent.darkest.value, saved.steps[i - 1].proof.extent.darkest.value);
    }
    constexpr double kPractically = 0.04;  // D; redeveloped silver is a little warmer
    EXPECT_NEAR(saved.steps.back().border.value, printing.print(plain.steps).border().density.value,
                kPractically);
    EXPECT_NEAR(saved.steps.back().proof.extent.darkest.value, plain.extent.darkest.value, kPractically);
    for (const auto& step : saved.steps)
        EXPECT_LE(saved.best.proof.lightness_error, step.proof.lightness_error + 0.05);
}

// How fast silver comes back is doubted by 10 s in 25 (judgement, pack/schema.cpp), and how much of it went
// as well: no rescue is known to better than a fifth of its time. Where all is measured, it is.
TEST(Rescue, ItsTimeIsAsSureAsThePackIs) {
    const auto width = [](const Pack& pack) {
        const Printing printing(pack, ordinary_frame());
        Recipe recipe;
        recipe.exposures = {{1.5, Stops{0}}};
        const Rescue saved =
            rescue(printing, printing.proof(recipe, printing.target().time), {400}, printing.fresh());
        EXPECT_LE(saved.redevelop_s.low, saved.best.redevelop.value);
        EXPECT_GE(saved.redevelop_s.high, saved.best.redevelop.value);
        return std::log(saved.redevelop_s.high / saved.redevelop_s.low);
    };
    Pack guessed = fogged_pack(0.35), measured = guessed;
    for (const auto& number : pack_numbers())
        measured.knowledge[number.name()] = {Origin::measured, 1e-4 * std::max(1.0, number.of(measured))};
    const double open = width(guessed), narrow = width(measured);
    EXPECT_GT(open, std::log(1.4));
    EXPECT_LT(narrow, std::log(1.1));
}

// A graded paper is of one grade, whichever its range turns out to be.
TEST(Rescue, IsToldOfPapersThatMayBeOfAnotherGrade) {
    Pack graded = fogged_pack(0.35);
    graded.contrast = Contrast::graded;
    graded.iso_range = 94;  // between grades 2 and 3 by 1 (pack/grades.hpp)
    const Printing printing(graded, ordinary_frame());
    const Proof made = printing.proof(Recipe{}, printing.target().time);
    const Rescue saved = rescue(printing, made, {400}, printing.fresh());
    EXPECT_GT(saved.redevelop_s.high, saved.redevelop_s.low);
}

// A lighter goal takes less silver back.
TEST(Rescue, GoesForWhatIsWanted) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    Recipe recipe;
    recipe.exposures = {{1.5, Stops{0}}};
    const Proof made = printing.proof(recipe, printing.target().time);
    Wanted dark = printing.fresh();
    for (double& l : dark.lightness) l -= 5;
    const Rescue fresh = rescue(printing, made, {400}, printing.fresh()),
                 darker = rescue(printing, made, {400}, dark);
    EXPECT_GT(darker.best.redevelop.value, 1.2 * fresh.best.redevelop.value);
    for (const auto& step : darker.steps) EXPECT_LE(darker.best.off, step.off + 0.05);
}

}  // namespace
}  // namespace fogproof::tests
