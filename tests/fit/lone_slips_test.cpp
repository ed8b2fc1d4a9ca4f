// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A density that was mistyped among good ones is named with what its neighbours lead to; good ones are left
// in peace. Which slips of the pen happen is common practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>

#include "fogproof/fit/pack_fit.hpp"
#include "support/foreign_owner.hpp"
#include "support/own_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

std::vector<Reading> typed(unsigned seed) {
    // Steps of half a stop, in both halves: a slope that a single step alone tells of may be any slope.
    auto strips = own::usual_strips();
    strips.push_back({"hard-before", 21, 40, 4, 20});
    strips.push_back({"hard-bleached", 21, 40, 4, 20, 90, 25});
    const Pack truth = own::old_paper(Contrast::variable);
    return own::on_own_sheets(own::read(truth, own::patches_of(strips, truth.contrast), 0.01, seed), 0.01,
                              seed + 1000);
}

std::vector<std::string> warned_of(const std::vector<Reading>& readings) {
    return fitted_pack(Pack{}, readings, "strips").warnings;
}

// The step of a strip whose density lies next to one that is wanted.
Reading& step_at(std::vector<Reading>& readings, const std::string& strip, double density) {
    const auto off = [&](const Reading& reading) {
        return reading.strip == strip ? std::abs(reading.density - density) : 9;
    };
    return *std::ranges::min_element(readings, {}, off);
}

TEST(LoneSlips, ADensityWithItsDigitsExchangedIsNamed) {
    for (unsigned seed = 1; seed <= 3; ++seed) {
        auto readings = typed(seed);
        Reading& steep = step_at(readings, "hard-before", 0.9);
        steep.density -= 0.45;  // 0.38 for 0.83
        EXPECT_THAT(warned_of(readings),
                    Contains(AllOf(HasSubstr("strip \"hard-before\""), HasSubstr("mistyped"),
                                   HasSubstr("40 s: a density of"))))
            << seed;
        steep.density += 0.45;
        step_at(readings, "bleached", 0.1).density += 0.3;
        EXPECT_THAT(warned_of(readings),
                    Contains(AllOf(HasSubstr("strip \"bleached\""), HasSubstr("mistyped"))))
            << seed;
    }
}

TEST(LoneSlips, GoodReadingsAreLeftInPeace) {
    for (unsigned seed = 1; seed <= 8; ++seed)
        EXPECT_THAT(warned_of(typed(seed)), Not(Contains(HasSubstr("mistyped")))) << seed;
    // Papers of other laws, read with more and less noise than is taken for granted.
    const unsigned papers = std::getenv("PACKS") ? unsigned(std::atoi(std::getenv("PACKS"))) : 8;
    for (unsigned seed = 1; seed <= papers; ++seed) {
        foreign::Owner owner(seed);
        EXPECT_THAT(warned_of(owner.measured().readings.rows()), Not(Contains(HasSubstr("mistyped"))))
            << seed;
    }
}

}  // namespace
}  // namespace fogproof::tests
