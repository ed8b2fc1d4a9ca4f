// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From the numbers of a pack to the constants of the rooms.
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

using testing::HasSubstr;

TEST(PaperModel, GradedPaperHasItsRangeAndSpeed) {
    for (const double range : {50.0, 80.0, 110.0, 160.0}) {
        Pack pack;
        pack.contrast = Contrast::graded;
        pack.iso_range = range;
        pack.blank_density = 0.3;
        const DrawnCurve curve(pack, paper_model(pack), Filter{1, 0});
        EXPECT_NEAR(curve.iso_range(), range, kRange);
        EXPECT_NEAR(curve.speed_point(), pack.speed_log_s, kSpeed);
    }
}

TEST(PaperModel, SlipsAndBlackComeBackFromItsRooms) {
    for (const double blank : {0.10, 0.2, 0.55, 1.2}) {
        Pack pack;
        pack.sheet.white_density = 0.09;
        pack.blank_density = blank;
        pack.black_density = 1.95;
        const PaperModel model = paper_model(pack);
        const Developer nominal(model.emulsion, {0, 90, 20});
        EXPECT_NEAR(model.sheet.density(nominal.developed({})).value, blank, kDensity);
        EXPECT_NEAR(model.sheet.density(nominal.developed({1e9, 1e9})).value, 1.95, kDensity);
        EXPECT_NEAR(model.sheet.white().value, 0.09, kDensity);
    }
}

TEST(PaperModel, ALinearDensityHasTheProbitRange) {
    // R = 100 s [z(0.90) - z(0.04/Dn)], worked for Dn 2: s 0.1499, 0.3298, 0.4797 give R 50, 110, 160 (closed
    // form on the reference points of ISO 6846). s has four digits, so R is known to 0.02.
    constexpr double kWorked = 0.05;
    for (const auto& [spread, range] : {std::pair{0.1499, 50.0}, {0.3298, 110.0}, {0.4797, 160.0}}) {
        Grains grains{.log_threshold = 0.7, .spread = spread, .max_density = 2.0};
        Emulsion emulsion{grains, {}, {}, {}};
        const Developer developer(emulsion, {0, 90, 20});
        const auto numbers = paper_numbers(
            [&](LogExposure h) {
                return PrintDensity{0.1 + developer.developed({std::pow(10.0, h.value), 0}).density.value};
            },
            {0.1}, {2.1});
        ASSERT_TRUE(numbers);
        EXPECT_NEAR(numbers->iso_range, range, kWorked);
    }
}

TEST(PaperModel, ContradictingDensitiesAreRefused) {
    const auto with = [](auto change) {
        Pack pack;
        change(pack);
        return refusal([&] { static_cast<void>(paper_model(pack)); });
    };
    EXPECT_STREQ(with([](Pack& p) { p.blank_density = 0.05; }).what(),
                 "pack \"unnamed pack\": blank 0.05 D is below paper white 0.08 D; expected: 0.08 D or more");
    EXPECT_THAT(with([](Pack& p) { p.blank_density = 2.1; }).what(), HasSubstr("a blank below the black"));
    EXPECT_THAT(with([](Pack& p) { p.sheet.surface = 0.03; }).what(),
                HasSubstr("sends back 3 % of the light"));
    EXPECT_THAT(with([](Pack& p) { p.black_density = 0.76; }).what(), HasSubstr("expected: 0.78 D or more"));
    EXPECT_THAT(with([](Pack& p) { p.development.induction_s = 95; }).what(),
                HasSubstr("appears only after 95 s"));
    EXPECT_EQ(with([](Pack& p) { p.blank_density = 0.05; }).fault(), Fault::config);
}

TEST(PaperModel, ABlankWithinTheDensitometersErrorBelowWhiteHasNoFog) {
    Pack pack;
    pack.blank_density = pack.sheet.white_density - 0.015;
    EXPECT_EQ(paper_model(pack).emulsion.fog.share, 0.0);
}

TEST(PaperModel, AnyPackInRangeIsRefusedOrPrintsBetweenItsWhiteAndItsBlack) {
    std::mt19937_64 dice(20240609);
    int modelled = 0;
    for (int i = 0; i < 5000; ++i) {
        Pack pack = random_pack(dice);
        // Hardly any colour at all is one of toned silver; what of that is refused, the sheet's tests hold.
        for (TonedColour* toned : {&pack.sheet.sulphide, &pack.sheet.thiourea, &pack.sheet.selenium})
            toned->patch = {};
        std::optional<PaperModel> model;
        try {
            model.emplace(paper_model(pack));
        } catch (const Error& error) {
            EXPECT_EQ(error.fault(), Fault::config) << error.what();
            continue;
        }
        ++modelled;
        const std::vector<double> grades = grades_of(pack, *model);
        ASSERT_FALSE(grades.empty());
        for (const double grade : {grades.front(), grades.back()}) {
            const DrawnCurve curve(pack, *model, filter_for(pack, *model, grade));
            double before = pack.sheet.white_density - kDensity;
            for (double log_h = -8; log_h <= 8; log_h += 0.25) {
                const double density = curve(log_h);
                ASSERT_GE(density, before - kDensity) << "at " << log_h << "\n" << written(pack);
                before = density;
            }
            ASSERT_LE(before, pack.black_density + kDensity);
        }
    }
    EXPECT_GT(modelled, 100) << "nearly all dice contradict themselves";
}

}  // namespace
}  // namespace fogproof::tests
