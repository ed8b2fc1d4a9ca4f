// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Wrong labels are named with the right ones, right ones left in peace. Which slips of the pen happen is
// common practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <numbers>

#include "fogproof/fit/pack_fit.hpp"
#include "support/own_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;

constexpr double kLabelNoise = 0.01, kSheets = 0.01;

std::vector<Reading> noisy(unsigned seed) {
    auto strips = own::usual_strips();
    strips.push_back({"hard", 15, 40, 4, 20});
    const Pack truth = own::old_paper(Contrast::variable);
    return own::on_own_sheets(own::read(truth, own::patches_of(strips, truth.contrast), kLabelNoise, seed),
                              kSheets, seed + 1000);
}

std::string said_of(const std::vector<Reading>& readings) {
    return fitted_pack(Pack{}, readings, "strips").in_words();
}

std::string said_when(const std::string& strip, const std::function<void(Reading&)>& change) {
    auto readings = noisy(1);
    for (auto& reading : readings)
        if (reading.strip == strip) change(reading);
    return said_of(readings);
}

// Two strips whose labels changed places.
std::string said_when_exchanged(const std::string& one, const std::string& other) {
    auto readings = noisy(1);
    std::vector<double*> densities[2];
    for (auto& reading : readings) {
        if (reading.strip == one) densities[0].push_back(&reading.density);
        if (reading.strip == other) densities[1].push_back(&reading.density);
    }
    for (std::size_t i = 0; i < densities[0].size(); ++i) std::swap(*densities[0][i], *densities[1][i]);
    return said_of(readings);
}

TEST(Contradiction, RightLabelsAreLeftInPeace) {
    for (unsigned seed = 1; seed <= 20; ++seed) EXPECT_EQ(said_of(noisy(seed)), "converged") << seed;
}

TEST(Contradiction, AWrongFilterIsNamed) {
    EXPECT_THAT(said_when("soft", [](Reading& r) { r.filter = 4; }),
                AllOf(HasSubstr("strip \"soft\""), HasSubstr("filter 2 instead of 4")));
}

TEST(Contradiction, AWrongBleachTimeIsNamed) {
    EXPECT_THAT(said_when("bleached", [](Reading& r) { r.bleach_s = 80; }),
                AllOf(HasSubstr("strip \"bleached\""), HasSubstr("bleach time 40 s instead of 80")));
    EXPECT_THAT(said_when("bleached", [](Reading& r) { r.bleach_s = 400; }),
                HasSubstr("bleach time 40 s instead of 400"));
}

TEST(Contradiction, AWrongDoseOfRestrainerIsNamed) {
    EXPECT_THAT(said_when("soft", [](Reading& r) { r.restrainer_ml_l = 0; }),
                AllOf(HasSubstr("strip \"soft\""), HasSubstr("restrainer 20 ml/L instead of 0")));
    // A slip without restrainer that reads too light may as well have been bleached.
    EXPECT_THAT(said_when("b20", [](Reading& r) { r.restrainer_ml_l = 0; }),
                AllOf(HasSubstr("strip \"b20\""), HasSubstr("restrainer 20 ml/L instead of 0")));
}

TEST(Contradiction, ExposuresAStopAHalfOrADecimalPointOffAreNamed) {
    for (const double slip : {2.0, 0.5, 1 / std::numbers::sqrt2, 10.0})
        EXPECT_THAT(said_when("soft", [&](Reading& r) { r.exposure_s = 40 * slip; }),
                    AllOf(HasSubstr("strip \"soft\""), HasSubstr("exposure 40 s instead of")))
            << slip;
}

TEST(Contradiction, StripsThatChangedPlacesAreNamed) {
    EXPECT_THAT(said_when_exchanged("soft", "bleached"), HasSubstr("bleach time exchanged with strip"));
    EXPECT_THAT(said_when_exchanged("bleached", "hard"), HasSubstr("labels exchanged with strip"));
    EXPECT_THAT(said_when_exchanged("fixed", "blank"), HasSubstr("exchanged with strip"));
}

}  // namespace
}  // namespace fogproof::tests
