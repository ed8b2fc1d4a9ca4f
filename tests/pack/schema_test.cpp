// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One row for every number of a pack.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <random>
#include <set>

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

TEST(Schema, EveryNumberOfAPackHasItsRow) {
    // Counted by size: all of these consist of doubles only, but for what lay in the anchor's carrier, a word
    // or a number, and the base + fog of the negative in use. log_threshold and max_density are derived and
    // stay out of the file, and today's light is none of the pack's.
    constexpr std::size_t kDerived = 2, kOfToday = 1;
    constexpr std::size_t kParts =
        (sizeof(SheetConstants) + sizeof(Grains) + sizeof(Restrainer) + sizeof(Development) +
         sizeof(BleachRate) + sizeof(BleachBath) + sizeof(Redevelopment) + sizeof(FilterSetHabits) +
         sizeof(Enlarger) - sizeof(Carrier) - sizeof(std::optional<double>)) /
        sizeof(double);
    // iso_range, black, blank, speed, fog exponent, restrainer stock, illuminance, two scatters, two of the
    // fog of the edges.
    constexpr std::size_t kOwn = 11;
    EXPECT_EQ(pack_numbers().size(), kParts - kDerived - kOfToday + kOwn);
    EXPECT_EQ(filter_numbers().size(), sizeof(PackFilter) / sizeof(double));
}

TEST(Schema, NoTwoRowsShareANameOrAMember) {
    std::set<std::string> names;
    std::set<double*> members;
    Pack pack;
    for (const auto& row : pack_numbers()) {
        EXPECT_TRUE(names.insert(row.name()).second) << row.name();
        EXPECT_TRUE(members.insert(&row.in(pack)).second) << row.name();
        EXPECT_EQ(pack_number(row.name()), &row);
    }
    EXPECT_EQ(pack_number("paper.nothing"), nullptr);
}

TEST(Schema, DefaultsLieInRangeAndAreAssumed) {
    const Pack pack;
    for (const auto& row : pack_numbers()) {
        EXPECT_GE(row.of(pack), row.minimum) << row.name();
        EXPECT_LE(row.of(pack), row.maximum) << row.name();
        EXPECT_EQ(pack.known(row.name()).origin, Origin::assumed) << row.name();
        EXPECT_FALSE(pack.known(row.name()).deviation) << row.name();
    }
}

}  // namespace
}  // namespace fogproof::tests
