// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Strips whose filters changed places are named, since no set has a harder filter that prints softer; right
// ones are left in peace. Common practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

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

std::vector<Reading> through_two_filters(unsigned seed, double soft, double hard) {
    auto strips = own::slips();
    strips.push_back({"first", 15, 40, soft, 20});
    strips.push_back({"first-bleached", 15, 40, soft, 20, 90, 40});
    strips.push_back({"second", 15, 40, hard, 20});
    const Pack truth = own::old_paper(Contrast::variable);
    return own::on_own_sheets(own::read(truth, own::patches_of(strips, truth.contrast), 0.01, seed), 0.01,
                              seed + 1000);
}

std::string said_with_order(const std::vector<Reading>& readings) {
    const PackFit fit = fitted_pack(Pack{}, readings, "strips");
    std::string said = fit.in_words();
    for (const auto& warning : fit.warnings) said += "\n" + warning;
    return said;
}

TEST(FilterOrder, FiltersThatChangedPlacesAreNamed) {
    for (unsigned seed = 1; seed <= 3; ++seed) {
        auto readings = through_two_filters(seed, 1, 4);
        for (Reading& reading : readings)
            if (reading.exposure_s > 0) reading.filter = reading.strip == "second" ? 1 : 4;
        EXPECT_THAT(said_with_order(readings),
                    AllOf(HasSubstr("filter 4 fits as softer than filter 1"), HasSubstr("exchanged?"),
                          HasSubstr("1 is given for \"second\", 4 for \"first\", \"first-bleached\"")))
            << seed;
    }
}

TEST(FilterOrder, RightFiltersAreLeftInPeace) {
    for (unsigned seed = 1; seed <= 5; ++seed) {
        EXPECT_THAT(said_with_order(through_two_filters(seed, 1, 4)), Not(HasSubstr("softer"))) << seed;
        EXPECT_THAT(said_with_order(through_two_filters(seed, 2, 2.5)), Not(HasSubstr("softer"))) << seed;
    }
    const unsigned papers = std::getenv("PACKS") ? unsigned(std::atoi(std::getenv("PACKS"))) : 8;
    for (unsigned seed = 1; seed <= papers; ++seed) {
        foreign::Owner owner(seed);
        EXPECT_THAT(said_with_order(owner.measured().readings.rows()), Not(HasSubstr("softer"))) << seed;
    }
}

}  // namespace
}  // namespace fogproof::tests
