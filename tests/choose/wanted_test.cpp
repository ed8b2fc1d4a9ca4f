// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Tones that count more than their area says.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numeric>

#include "choose/drawn_paper.hpp"
#include "choose/starting_point.hpp"
#include "choose/wanted.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {
using examples::fogged_pack;
using examples::ordinary_frame;

namespace {

double total(const std::vector<Tone>& tones) {
    return std::accumulate(tones.begin(), tones.end(), 0.0,
                           [](double sum, const Tone& tone) { return sum + tone.share; });
}

// rms L* by which the best unbleached print at grade 2 misses the fresh one between two shares of the frame,
// each seen against its own white, as exposures are judged.
double miss_between(const Printing& printing, const Wanted& wanted, double from, double to) {
    SearchBounds bounds;
    bounds.softest = bounds.hardest = 2;
    bounds.restrainers = {0};
    bounds.most_clearing = 0;
    const RecipeSearch search(printing, wanted);
    const Recipe recipe = search.as_recipe(search.best(bounds));
    const Proof proof = printing.proof(recipe, printing.starting_exposure(recipe, wanted));
    const PrintModel print = printing.print(proof.steps), fresh = printing.fresh_print();
    const Adaptation seen = Adaptation::between(print.border().lab.l, fresh.border().lab.l);
    double sum = 0, area = 0;
    for (const Tone& tone : tones_between(printing.frame(), from, to)) {
        sum += tone.share *
               std::pow(seen.miss(print.patch(tone.density).lab.l, fresh.patch(tone.density).lab.l), 2);
        area += tone.share;
    }
    return std::sqrt(sum / area);
}

}  // namespace

TEST(Minding, TonesBetweenTwoSharesHoldThatMuchOfTheFrame) {
    const Tones frame = ordinary_frame();
    const auto densest = tones_between(frame, 0.8, 1.0);
    EXPECT_NEAR(total(densest), 0.2, 1e-9);
    EXPECT_NEAR(densest.front().density.value, frame.quantile(0.8).value, 0.02);
    EXPECT_TRUE(tones_between(frame, 0.5, 0.5).empty());
}

TEST(Minding, SharesStillAddUpToOne) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    const MindedTones lights{tones_between(printing.frame(), 0.9, 1.0), 0.6},
        darks{tones_between(printing.frame(), 0.0, 0.2), 0.3};
    const Wanted wanted = minding(as_fresh(printing), std::array{lights, darks});
    EXPECT_NEAR(total(wanted.tones), 1, 1e-9);
    double heavy = 0;
    for (const Tone& tone : wanted.tones)
        if (tone.density >= printing.frame().quantile(0.9)) heavy += tone.share;
    EXPECT_NEAR(heavy, 0.6 + 0.1 * 0.1, 0.03) << "a tone of the search may lie astride of the limit";
}

// One exposure serves either the lights or the darks: what is minded comes out closer. Each print seen
// against its own white, little is left to gain: 0.4 L* in the lights, 0.05 in the darks, far above the
// search's 0.001.
constexpr double kPlainly = 0.03;
TEST(Minding, WhatIsMindedComesOutCloser) {
    const Printing printing(fogged_pack(0.35), ordinary_frame());
    for (const auto& [from, to] : {std::pair{0.8, 1.0}, std::pair{0.0, 0.2}}) {
        const MindedTones some{tones_between(printing.frame(), from, to), 0.8};
        const Wanted minded = minding(as_fresh(printing), std::span(&some, 1));
        EXPECT_LT(miss_between(printing, minded, from, to),
                  miss_between(printing, as_fresh(printing), from, to) - kPlainly);
    }
}

// Gathered with its neighbours, a placed tone would be wanted somewhere between its own density and theirs.
TEST(Wanted, ToldToneStaysByItselfWhenTonesAreGathered) {
    const Printing printing(fogged_pack(0.3), ordinary_frame());
    const Wanted all = placed(printing, std::array{PlacedTone{printing.frame().quantile(0.5), 0.7}});
    const Wanted few = gathered(all, 24);
    ASSERT_EQ(all.placed, 1U);
    ASSERT_LT(few.tones.size(), all.tones.size());
    double share = 0, own = 0;
    for (std::size_t i = 0; i < few.tones.size(); ++i) {
        share += few.tones[i].share;
        if (few.lightness[i] == all.lightness.back()) own += few.tones[i].share;
    }
    EXPECT_NEAR(share, 1, 1e-9);
    EXPECT_NEAR(own, 0.9, 1e-9);
}

// Weight on tones elsewhere must not fall on the placed one.
TEST(Wanted, MindedTonesAreThoseOfThePicture) {
    const Printing printing(fogged_pack(0.3), ordinary_frame());
    const Wanted wanted = placed(printing, std::array{PlacedTone{printing.frame().quantile(0.5), 0.7}});
    const MindedTones same{{{printing.frame().quantile(0.5), 1}}, 0.5};
    EXPECT_NEAR(minding(wanted, std::array{same}).tones.back().share, 0.45, 1e-9);
}

}  // namespace
}  // namespace fogproof::tests
