// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What else labels may have meant. Which slips of the pen happen is common practice, no source.
#include "fit/slips_of_pen.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "fit/stated_densities.hpp"
#include "support/own_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;

// A pack states its blank in its own file: no pen could exchange that with a row of the readings.
TEST(SlipsOfPen, WhatThePackStatesIsExchangedWithNoStrip) {
    Pack pack = own::old_paper(Contrast::variable);
    pack.knowledge["fog.blank"] = {Origin::measured, 0.01};
    const std::vector<own::Strip> made{{"first", 15, 40, 2, 20}, {"second", 15, 40, 2, 5, 60}};
    const auto readings =
        with_stated_densities(own::read(pack, own::patches_of(made, pack.contrast), 0, 1), pack);
    std::vector<std::string> words;
    const auto strips = strips_in(readings);
    ASSERT_EQ(strips.size(), 3u);
    for (const auto& strip : strips)
        for (const auto& slip : slips_of_pen(readings, pack, strip, strips))
            if (slip.is_swap) words.push_back(strip + ": " + slip.words);
    EXPECT_THAT(words, Contains(HasSubstr("first: restrainer exchanged with strip \"second\"")));
    EXPECT_THAT(words, Not(Contains(HasSubstr("that the pack states"))));
}

}  // namespace
}  // namespace fogproof::tests
