// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which strips the chart of a fit draws.
#include "report/fit_chart.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <regex>

#include "fogproof/fit/pack_fit.hpp"
#include "support/own_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string chart_of(const std::vector<own::Strip>& strips) {
    const Pack truth = own::old_paper(Contrast::variable);
    const auto rows = own::read(truth, own::patches_of(strips, truth.contrast), 0.005, 1);
    return fit_svg(fitted_pack(Pack{}, rows, "strips"));
}

TEST(FitChart, DrawsEveryStripAndSaysHowManyItLeavesOut) {
    std::vector<own::Strip> strips;
    // Patches that are too few for a curve come first.
    for (int i = 0; i < 9; ++i) strips.push_back({"slip " + std::to_string(i), 2, 20});
    for (int i = 0; i < 10; ++i)
        strips.push_back({"strip " + std::to_string(i), 6, 20, 2, 0, 90, i % 2 ? 20.0 + i : 0.0});
    const std::string ten = chart_of(strips);
    for (int i = 0; i < 10; ++i) EXPECT_THAT(ten, HasSubstr(">strip " + std::to_string(i)));
    EXPECT_THAT(ten, Not(HasSubstr("not drawn")));
    for (int i = 10; i < 19; ++i) strips.push_back({"strip " + std::to_string(i), 6, 20});
    const std::string many = chart_of(strips);
    EXPECT_THAT(many, HasSubstr("3 earlier strips are not drawn"));
    EXPECT_THAT(many, HasSubstr(">strip 18"));
}

TEST(FitChart, StripsWithoutNamesAreOnesOfTheirTreatment) {
    const std::string chart = chart_of({{"", 6, 20, 2}, {"", 6, 20, 4}, {"", 6, 20, 2, 0, 90, 30}});
    for (const char* named :
         {">no name, grade 2<", ">no name, grade 4<", ">no name, grade 2, bleached 30 s<"})
        EXPECT_THAT(chart, HasSubstr(named));
}

// A band holds its curve, and both stay on the chart, however black the paper is beyond what was read.
TEST(FitChart, HoldsCurvesThatGoBeyondTheirReadings) {
    Pack black = own::old_paper(Contrast::variable);
    black.black_density = 2.2;
    const auto rows = own::read(black, own::patches_of({"short", 4, 2, 2}, black.contrast), 0, 1);
    const std::string chart = fit_svg(fitted_pack(black, rows, "strips"));
    const std::regex point("[0-9.]+,(-?[0-9.]+)");
    for (auto at = std::sregex_iterator(chart.begin(), chart.end(), point); at != std::sregex_iterator();
         ++at)
        EXPECT_GT(std::stod((*at)[1]), 75) << "into the title";
}

TEST(FitChart, SaysWhyItIsEmpty) {
    const Pack truth = own::old_paper(Contrast::variable);
    auto rows = own::read(truth, own::patches_of({"wedge", 21, 40, 2}, truth.contrast), 0.005, 1);
    for (Reading& row : rows) row.exposure_s.reset();
    const std::string chart = fit_svg(fitted_pack(Pack{}, rows, "strips"));
    EXPECT_THAT(chart, HasSubstr("21 readings without seconds not drawn"));
    EXPECT_THAT(chart, HasSubstr("no strip has three patches of known seconds"));
}

}  // namespace
}  // namespace fogproof::tests
