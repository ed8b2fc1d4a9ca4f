// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Gains are drawn here, so what is true is known. No published source; arithmetic.
#include "registration/tone_gain.hpp"

#include <gtest/gtest.h>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using registration::GainSeen;
using registration::ToneGain;

constexpr double kExact = 1e-4;  // squared, of a gain that is known

// Places over half of the tones, with a gain that rises with them.
double drawn_gain(double tone) {
    return 0.2 + tone;
}
std::vector<GainSeen> places(int count) {
    std::vector<GainSeen> all;
    for (int i = 0; i < count; ++i) {
        const double tone = 0.25 + 0.5 * (i + 0.5) / count;
        all.push_back({tone, drawn_gain(tone), kExact});
    }
    return all;
}

TEST(ToneGain, IsThatOfPlacesOfItsTone) {
    const auto gain = ToneGain::of(places(800));
    ASSERT_TRUE(gain);
    for (const double tone : {0.3, 0.4, 0.5, 0.6, 0.7}) EXPECT_NEAR(gain->at(tone), drawn_gain(tone), 0.005);
}

TEST(ToneGain, BeyondAllPlacesItIsThatOfTheNextOnes) {
    const auto gain = ToneGain::of(places(800));
    ASSERT_TRUE(gain);
    EXPECT_NEAR(gain->at(0.85), drawn_gain(0.75), 0.06);
    EXPECT_NEAR(gain->at(0.1), drawn_gain(0.25), 0.06);
}

TEST(ToneGain, PlacesThatTellLittleWeighLittle) {
    auto all = places(400);
    for (std::size_t i = 0; i < all.size(); i += 2) all[i].gain = 3, all[i].variance = 100;
    const auto gain = ToneGain::of(std::move(all));
    ASSERT_TRUE(gain);
    EXPECT_NEAR(gain->at(0.5), drawn_gain(0.5), 0.02);
}

TEST(ToneGain, IsNotToldFromFewPlacesNorWhereDetailGetsDarkerWithDensity) {
    EXPECT_FALSE(ToneGain::of(places(19)));
    auto all = places(400);
    for (GainSeen& place : all) place.gain = -place.gain;
    EXPECT_FALSE(ToneGain::of(std::move(all)));
}

TEST(ToneGain, IsNowhereNoneAtAll) {
    // A few places whose detail went astray do not make a slope of zero, by which grain would be divided.
    auto all = places(400);
    for (GainSeen& place : all)
        if (place.tone > 0.7) place.gain = 0;
    const auto gain = ToneGain::of(std::move(all));
    ASSERT_TRUE(gain);
    EXPECT_GT(gain->at(0.74), 0.1);
}

}  // namespace
}  // namespace fogproof::tests
