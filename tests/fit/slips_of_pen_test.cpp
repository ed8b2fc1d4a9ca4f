// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What else labels may have meant. Which slips of the pen happen is common practice, no source.
#include "fit/slips_of_pen.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

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

// A test strip told half its seconds throughout: its bands differ, so no single time can have been meant.
TEST(SlipsOfPen, OfAStripOfBandsAllSecondsMayBeOffAlike) {
    const Pack pack = own::old_paper(Contrast::variable);
    std::vector<Reading> readings;
    for (const double seconds : {0.0, 4.0, 8.0, 16.0}) {
        Reading reading;
        reading.strip = "bands";
        reading.exposure_s = seconds;
        reading.filter = 2;
        readings.push_back(reading);
    }
    const auto strips = strips_in(readings);
    const auto slips = slips_of_pen(readings, pack, "bands", strips);
    const auto twice = std::ranges::find_if(slips, [](const auto& slip) {
        return slip.words.starts_with("exposures 8 to 32 s instead of 4 to 16");
    });
    ASSERT_NE(twice, slips.end());
    for (std::size_t i = 0; i < readings.size(); ++i)
        EXPECT_DOUBLE_EQ(*twice->readings[i].exposure_s, 2 * *readings[i].exposure_s)
            << "an unexposed part stays";
    readings.resize(2);
    for (const auto& slip : slips_of_pen(readings, pack, "bands", strips))
        EXPECT_THAT(slip.words, Not(HasSubstr("exposures"))) << "one time is no range";
}

// What was only fixed met no developer, and so no restrainer that could have changed places.
TEST(SlipsOfPen, RestrainerIsExchangedWithNoSlipThatWasOnlyFixed) {
    const Pack pack = own::old_paper(Contrast::variable);
    const std::vector<own::Strip> made{
        {"fixed", 1, 0, 2, 0, 0}, {"first", 15, 40, 2, 20}, {"other", 15, 40, 2, 5}};
    const auto readings = own::read(pack, own::patches_of(made, pack.contrast), 0, 1);
    std::vector<std::string> words;
    for (const auto& slip : slips_of_pen(readings, pack, "first", strips_in(readings)))
        words.push_back(slip.words);
    EXPECT_THAT(words, Contains("restrainer exchanged with strip \"other\""));
    EXPECT_THAT(words, Not(Contains("restrainer exchanged with strip \"fixed\"")));
}

// A development that no other strip had: the pack's own, or the shorter one that people take beside it.
TEST(SlipsOfPen, TryTheUsualDevelopments) {
    const Pack pack = own::old_paper(Contrast::variable);
    auto rows = own::patches_of({"a", 9, 20}, pack.contrast);
    const auto more = own::patches_of({"b", 9, 20}, pack.contrast);
    rows.insert(rows.end(), more.begin(), more.end());
    const std::vector<std::string> others{"b"};
    const auto labels = slips_of_pen(rows, pack, "a", others);
    EXPECT_TRUE(std::ranges::any_of(labels, [](const Relabelling& made) {
        return made.words.find("development 60 s instead of 90") != std::string::npos;
    }));
}

}  // namespace
}  // namespace fogproof::tests
