// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A pack out of two slips.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <random>
#include <set>

#include "fit/predictor.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/emulsion/paper_numbers.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/pack/grades.hpp"
#include "pack/from_slips.hpp"
#include "pack/schema.hpp"
#include "support/packs.hpp"
#include "support/refusal.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

TEST(Slips, DensitiesAreMeasuredWordsAreGivenTheRestAssumed) {
    const Pack pack = pack_from_slips({.white_density = 0.07,
                                       .blank_density = 0.42,
                                       .black_density = std::nullopt,
                                       .surface = Surface::semi_matt,
                                       .contrast = Contrast::graded,
                                       .grade = 3.0,
                                       .iso_range = std::nullopt,
                                       .tint = Tint::warm,
                                       .name = "cellar"});
    EXPECT_EQ(pack.name, "cellar");
    EXPECT_EQ(pack.sheet.white_density, 0.07);
    EXPECT_EQ(pack.blank_density, 0.42);
    EXPECT_EQ(pack.iso_range, iso_range_of_grade(3));
    EXPECT_GT(pack.sheet.white_b, 0);
    const std::map<std::string, Origin> kKnown{{"paper.white", Origin::measured},
                                               {"fog.blank", Origin::measured},
                                               {"paper.contrast", Origin::given},
                                               {"paper.surface", Origin::given},
                                               {"paper.iso_range", Origin::given}};
    for (const auto& row : pack_numbers()) {
        const auto known = kKnown.find(row.name());
        EXPECT_EQ(pack.known(row.name()).origin, known == kKnown.end() ? Origin::assumed : known->second)
            << row.name();
    }
    EXPECT_EQ(pack.known("paper.contrast").origin, Origin::given);
    EXPECT_EQ(parse_pack(written(pack), "cellar.toml"), pack);
}

TEST(Slips, AReadTintAndBlackAreMeasured) {
    const Pack pack = pack_from_slips(
        {.white_density = 0.07, .blank_density = 0.42, .black_density = 1.8, .tint = TintReading{0.4, 3.5}});
    EXPECT_EQ(pack.sheet.white_a, 0.4);
    EXPECT_EQ(pack.sheet.white_b, 3.5);
    for (const char* name : {"paper.white_a", "paper.white_b", "paper.black"})
        EXPECT_EQ(pack.known(name).origin, Origin::measured) << name;
}

TEST(Slips, WhatExcludesItselfIsRefused) {
    const auto with = [](Slips slips) {
        return std::string(refusal([&] { static_cast<void>(pack_from_slips(slips)); }).what());
    };
    EXPECT_EQ(with({.white_density = 0.7, .blank_density = 0.8}), "white: 0.7; expected: 0 to 0.5 D");
    EXPECT_THAT(with({.white_density = 0.10, .blank_density = 0.07}),
                HasSubstr("is below paper white 0.1 D"));
    EXPECT_THAT(with({.white_density = std::nan(""), .blank_density = 0.1}), HasSubstr("nan"));
    EXPECT_THAT(with({.white_density = 0.1, .blank_density = 0.2, .grade = 2.0}),
                HasSubstr("expected: with graded paper"));
    EXPECT_THAT(
        with({.white_density = 0.1, .blank_density = 0.2, .contrast = Contrast::graded, .grade = 7.0}),
        HasSubstr("expected: 0 to 5"));
    EXPECT_THAT(with({.white_density = 0.1,
                      .blank_density = 0.2,
                      .contrast = Contrast::graded,
                      .grade = 2.0,
                      .iso_range = 110.0}),
                HasSubstr("expected: one of them"));
}

TEST(Slips, ASurfaceSendsBackNoMoreThanTheBlackThatWasRead) {
    const Pack pack = pack_from_slips(
        {.white_density = 0.1, .blank_density = 0.2, .black_density = 2.0, .surface = Surface::matt});
    EXPECT_LT(pack.sheet.surface, std::pow(10.0, -2.0));
    EXPECT_NO_THROW(static_cast<void>(paper_model(pack)));
}

TEST(Slips, ABlankJustBelowWhiteIsTakenAsFreeOfFog) {
    EXPECT_NO_THROW(static_cast<void>(pack_from_slips({.white_density = 0.10, .blank_density = 0.085})));
}

}  // namespace
}  // namespace fogproof::tests
