// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The densities that a pack states, as readings.
#include "fit/stated_densities.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "fit/predictor.hpp"
#include "fogproof/fit/pack_fit.hpp"
#include "support/own_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

Pack stating(std::initializer_list<const char*> numbers, double doubt = 0.01) {
    Pack pack = own::old_paper(Contrast::variable);
    for (const char* number : numbers) pack.knowledge[number] = {Origin::measured, doubt};
    return pack;
}

std::vector<Reading> wedge_by(const std::string& instrument) {
    auto wedge = own::read(own::old_paper(Contrast::variable),
                           own::patches_of(own::Strip{"wedge", 15, 40}, Contrast::variable), 0, 1);
    for (Reading& reading : wedge) {
        reading.common_error = 0.01;
        reading.dark_error = reading.density / 100;
        reading.instrument = instrument;
    }
    return wedge;
}

TEST(StatedDensities, AreWhatThePaperShowsOfSuchPatches) {
    const Pack pack = stating({"paper.white", "fog.blank", "paper.black"});
    const auto wedge = wedge_by("flatbed");
    const auto all = with_stated_densities(wedge, pack);
    ASSERT_EQ(all.size(), wedge.size() + 3);
    const auto shown = Predictor(pack, all).densities(pack);
    constexpr double kSame = 1e-3;  // D; a black is reached in the limit
    for (std::size_t i = 0; i < all.size(); ++i) {
        EXPECT_EQ(is_stated_density(all[i]), i >= wedge.size());
        EXPECT_NEAR(all[i].density, shown[i], kSame) << all[i].strip;
    }
}

TEST(StatedDensities, ErrAsTheOneInstrumentTellsNearThem) {
    const auto all = with_stated_densities(wedge_by("flatbed"), stating({"paper.white", "paper.black"}));
    const Reading &white = all[all.size() - 2], &black = all.back();
    for (const Reading& stated : {white, black}) {
        EXPECT_EQ(stated.instrument, "flatbed");
        EXPECT_EQ(stated.common_error, 0.01);
        EXPECT_EQ(stated.density_error, 0.01);
    }
    EXPECT_LT(*white.dark_error, 0.006);
    EXPECT_GT(*black.dark_error, 0.015);
}

TEST(StatedDensities, OfSeveralInstrumentsErrByThemselves) {
    auto wedge = wedge_by("flatbed");
    wedge.front().instrument = "densitometer";
    const auto all = with_stated_densities(wedge, stating({"paper.white"}));
    ASSERT_EQ(all.size(), wedge.size() + 1);
    EXPECT_FALSE(all.back().common_error);
}

TEST(StatedDensities, AreNoneWhereAPackAssumesThem) {
    const auto wedge = wedge_by("flatbed");
    EXPECT_EQ(with_stated_densities(wedge, stating({})).size(), wedge.size());
}

TEST(StatedDensities, AreOpenBeforeTheyAreRead) {
    const Pack pack = stating({"paper.white", "fog.blank"});
    const Pack before = before_stated_densities(pack, with_stated_densities(wedge_by("flatbed"), pack));
    EXPECT_EQ(before.known("paper.white").origin, Origin::assumed);
    EXPECT_EQ(before.known("fog.blank").origin, Origin::assumed);
}

// A densitometer's white that a flatbed is then held against.
TEST(StatedDensities, KnownBetterThanTheInstrumentWereReadByAnotherOne) {
    const auto wedge = wedge_by("flatbed");
    const Pack pack = stating({"paper.white", "fog.blank"}, 0.001);
    const auto all = with_stated_densities(wedge, pack);
    for (std::size_t i = wedge.size(); i < all.size(); ++i) {
        EXPECT_FALSE(all[i].common_error);
        EXPECT_EQ(all[i].density_error, 0.001);
    }
    auto by_nobody = wedge;
    for (Reading& reading : by_nobody) reading.common_error.reset(), reading.dark_error.reset();
    const Pack learnt = fitted_pack(pack, wedge, "wedge").pack,
               as_if = fitted_pack(pack, by_nobody, "wedge").pack;
    EXPECT_LE(*learnt.known("paper.white").deviation, 1.1 * *as_if.known("paper.white").deviation)
        << "a flatbed takes no knowledge away";
}

}  // namespace
}  // namespace fogproof::tests
