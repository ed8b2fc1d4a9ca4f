// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How a paper departs from the laws stands in its file as lists, and nowhere where it does not.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "fogproof/pack/file.hpp"
#include "pack/departure_text.hpp"
#include "pack/schema.hpp"
#include "support/refusal.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(DepartureText, APackThatObeysTheLawsSaysNothingOfThem) {
    EXPECT_EQ(departure_section(Pack{}), "");
    EXPECT_THAT(written(Pack{}), Not(HasSubstr("departure")));
    EXPECT_TRUE(parse_pack("fogproof_pack = 1\n", "old.toml").grains.departure.is_nil());
}

TEST(DepartureText, ComesBackAsItWas) {
    Pack pack;
    pack.grains.departure.slope = {0, 0.1, -0.2, 0.3, 0, 0, 0.05};
    pack.bleach.pace[2] = -0.25;
    pack.bleach.quicker[4] = -0.4;
    pack.knowledge["departure.slope_2"] = {Origin::partly_measured, 0.07};
    const std::string text = written(pack);
    EXPECT_THAT(text, HasSubstr("\n[departure]\n"));
    EXPECT_THAT(text, HasSubstr("\nslope = \"0 0.1 -0.2 0.3 0 0 0.05\"\n"));
    const Pack back = parse_pack(text, "old.toml");
    EXPECT_EQ(back.grains, pack.grains);
    EXPECT_EQ(back.bleach, pack.bleach);
    EXPECT_EQ(back.known("departure.slope_2"), pack.known("departure.slope_2"));
    // Neither a coefficient nor its doubt by the line.
    EXPECT_THAT(text, Not(HasSubstr("slope_2")));
}

TEST(DepartureText, RefusesWhatNoFitHasWritten) {
    const auto refused = [](const std::string& line) {
        return words_of_refusal([&] {
            static_cast<void>(parse_pack("fogproof_pack = 1\n[departure]\n" + line + "\n", "old.toml"));
        });
    };
    EXPECT_THAT(refused("slope = \"0 0 0\""), HasSubstr("old.toml:3"));
    EXPECT_THAT(refused("slope = \"0 0 0\""), HasSubstr("expected: 7 numbers"));
    EXPECT_THAT(refused("slope = \"0 0 0 0 0 0 steep\""), HasSubstr("expected: numbers"));
    EXPECT_THAT(refused("slope = \"0 0 0 0 0 0 99\""), HasSubstr("expected: -3 to 3"));
    EXPECT_THAT(refused("pace_sd = \"1 1 1 1 1 0\""), HasSubstr("expected: deviations above 0"));
    EXPECT_THAT(refused("bend = \"1\""), HasSubstr("bend"));
}

}  // namespace
}  // namespace fogproof::tests
