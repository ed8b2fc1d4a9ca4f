// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "fogproof/base/error.hpp"
#include "fogproof/fit/pack_fit.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/working_curve.hpp"
#include "pack/schema.hpp"
#include "pack/uncertainty.hpp"
#include "print/response.hpp"
#include "support/own_strips.hpp"
#include "support/refusal.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

// D; what the quick bands promise and far below a densitometer.
constexpr double kQuick = 2e-5;

TEST(Predictor, AgreesWithTheRoomsThemselves) {
    Pack pack;
    pack.blank_density = 0.4;
    pack.filters = {{2, -0.5, 0.02}, {4, -1.1, -0.03}};
    pack.grains.skew = 0.2;
    pack.grains.peak = -0.1;
    pack.bleach.order = 0.8;
    const auto patches = own::patches_of(
        {{"a", 9, 30, 2, 20}, {"b", 9, 30, 4, 0, 90, 40, 20}, {"c", 9, 12, 2, 5, 60, 25}}, pack.contrast);
    const auto densities = Predictor(pack, patches).densities(pack);
    for (std::size_t i = 0; i < patches.size(); ++i) {
        Recipe recipe;
        recipe.exposures = {{*patches[i].filter, Stops{0}}};
        recipe.restrainer_ml_l = *patches[i].restrainer_ml_l;
        recipe.develop_s = *patches[i].develop_s;
        recipe.bleach = Seconds{patches[i].bleach_s};
        recipe.redevelop_s = patches[i].redevelop_s;
        const PaperModel paper = paper_model(pack);
        const Response response(paper, pack.darkroom.enlarger, print_steps(pack, paper, recipe, Seconds{1}));
        const LogExposure at{std::log10(*patches[i].exposure_s) - *patches[i].wedge_density};
        EXPECT_NEAR(densities[i], response.density(at).value, kQuick) << i;
    }
}

// D; far below what a derivative over the smallest step of a fit would show.
constexpr double kStraightOn = 1e-8;

TEST(Predictor, RemembersOnlyWhatStaysTheSame) {
    Pack pack;
    pack.blank_density = 0.4;
    pack.filters = {{2, -0.5, 0.02}};
    const auto patches = own::patches_of({{"a", 5, 30, 2, 20, 90, 30}}, pack.contrast);
    Predictor used(pack, patches);
    static_cast<void>(used.densities(pack));
    for (const auto& row : pack_numbers()) {
        if (row.doubt <= 0) continue;
        Pack moved = pack;
        row.in(moved) = std::clamp(row.of(pack) + 0.3 * row.doubt, row.minimum, row.maximum);
        const auto anew = Predictor(pack, patches).densities(moved);
        // A detour goes straight where the layer hardly changes.
        const auto on_detour = used.densities(moved, true);
        for (std::size_t i = 0; i < anew.size(); ++i)
            EXPECT_NEAR(on_detour[i], anew[i], kStraightOn) << row.name();
        EXPECT_EQ(used.densities(moved), anew) << row.name();
        static_cast<void>(used.densities(pack));
    }
}

TEST(Fit, TwoSlipsAloneFixWhiteAndFogAndLeaveTheRest) {
    const auto readings =
        own::read(own::old_paper(Contrast::variable),
                  own::patches_of({{"fixed", 1, 0, 2, 0, 0}, {"blank"}}, Contrast::variable), 0, 1);
    const PackFit fit = fitted_pack(Pack{}, readings, "slips");
    EXPECT_EQ(fit.in_words(), "converged");
    // Half the usual reading error of 0.01: a prior that hardly pulls.
    EXPECT_NEAR(fit.pack.sheet.white_density, 0.10, 0.005);
    EXPECT_NEAR(fit.pack.blank_density, 0.45, 0.005);
    EXPECT_EQ(fit.pack.known("paper.white").origin, Origin::measured);
    EXPECT_EQ(fit.pack.known("fog.blank").origin, Origin::measured);
    EXPECT_EQ(fit.pack.known("bleach.per_second"), Knowledge{});
    EXPECT_EQ(fit.pack.known("speed.log_seconds"), Knowledge{});
    EXPECT_FALSE(fit.pack.darkroom.anchored) << "no reading tells the speed";
    EXPECT_TRUE(fit.pack.filters.empty());
}

TEST(Fit, OneWedgeAddsSpeedContrastAndBlack) {
    auto strips = own::slips();
    strips.push_back({"wedge", 21, 40, 2, 0});
    const Pack truth = own::old_paper(Contrast::variable);
    const auto readings = own::read(truth, own::patches_of(strips, truth.contrast), 0.01, 1);
    const PackFit fit = fitted_pack(Pack{}, readings, "strips");
    EXPECT_TRUE(fit.pack.darkroom.anchored);
    for (const char* name : {"paper.white", "paper.black", "fog.blank", "speed.log_seconds"})
        EXPECT_EQ(fit.pack.known(name).origin, Origin::measured) << name;
    EXPECT_EQ(fit.pack.known("bleach.per_second"), Knowledge{});
    // D; three repeats of the reading error.
    EXPECT_NEAR(fit.pack.black_density, truth.black_density, 0.03);
}

TEST(Fit, CleanReadingsGiveTheConstantsBack) {
    constexpr double kOnePercent = 0.01, kTenPercent = 0.1;
    for (const Contrast contrast : {Contrast::graded, Contrast::variable}) {
        Pack truth = own::old_paper(contrast);
        std::vector<own::Strip> strips = own::usual_strips();
        for (const double dose : {5.0, 10.0, 40.0, 80.0}) strips.push_back({"fog", 1, 0, 2, dose});
        for (const own::Strip& strip :
             {own::Strip{"plain", 41, 40, 2, 0}, own::Strip{"restrained", 41, 40, 2, 20},
              own::Strip{"more", 41, 40, 2, 60}, own::Strip{"t20", 41, 40, 2, 20, 90, 20},
              own::Strip{"t60", 41, 40, 2, 20, 90, 60}, own::Strip{"t120", 41, 40, 2, 20, 90, 120}})
            strips.push_back(strip);
        if (contrast == Contrast::variable)
            for (const double grade : {0.0, 4.0, 5.0}) strips.push_back({"other", 41, 40, grade, 20});
        auto readings = own::read(truth, own::patches_of(strips, contrast), 0, 1);
        const PackFit fit = fitted_pack(own::nothing_known(contrast), readings, "strips");
        EXPECT_EQ(fit.in_words(), "converged");
        const auto is_back = [&](const char* name, double scale) {
            const PackNumber* row = pack_number(name);
            EXPECT_NEAR(row->of(fit.pack), row->of(truth), kOnePercent * scale) << name;
        };
        for (const char* name :
             {"paper.white", "paper.black", "fog.blank", "restrainer.half_ml_l", "restrainer.steepness"})
            is_back(name, pack_number(name)->of(truth));
        // A departure of this paper could stand in for these: they are back within what they leave in doubt.
        for (const char* name : {"bleach.per_second", "bleach.starvation"}) {
            const PackNumber* row = pack_number(name);
            EXPECT_NEAR(row->of(fit.pack), row->of(truth), *fit.pack.known(name).deviation) << name;
            EXPECT_NEAR(row->of(fit.pack), row->of(truth), kTenPercent * row->of(truth)) << name;
        }
        // Logarithms and powers have no scale of their own: a hundredth of a decade, of one.
        for (const char* name : {"speed.log_seconds", "bleach.order", "bleach.time_exponent"})
            is_back(name, 1);
        if (contrast == Contrast::graded)
            is_back("paper.iso_range", truth.iso_range);
        else
            is_back("grains.spread", 1);
    }
}

TEST(Fit, FilesKeepReadingsAndCorrelations) {
    const Pack truth = own::old_paper(Contrast::variable);
    const auto readings = own::read(truth, own::patches_of(own::usual_strips(), truth.contrast), 0.01, 3);
    const PackFit fit = fitted_pack(Pack{}, readings, "strips.csv");
    const Pack back = parse_pack(written(fit.pack), "old.toml");
    EXPECT_EQ(back, fit.pack);
    EXPECT_EQ(back.readings.rows().size(), readings.size());
    EXPECT_THAT(back.readings.text(), HasSubstr("# origin: strips.csv"));
    Pack bad = fit.pack;
    bad.fit.correlation.front() = 1.5;
    EXPECT_THAT(words_of_refusal([&] { check(bad, "old.toml"); }), HasSubstr("contradict each other"));
    bad = fit.pack;
    bad.fit.correlation.pop_back();
    EXPECT_THAT(words_of_refusal([&] { check(bad, "old.toml"); }), HasSubstr("correlations of"));
}

TEST(Fit, FurtherReadingsAreFittedWithTheOldOnesFromTheSameStart) {
    const Pack truth = own::old_paper(Contrast::variable);
    const auto all = own::read(truth, own::patches_of(own::usual_strips(), truth.contrast), 0.01, 3);
    const std::size_t half = all.size() / 2;
    const std::vector<Reading> first(all.begin(), all.begin() + long(half)),
        rest(all.begin() + long(half), all.end());
    Pack before;
    before.sheet.white_density = 0.12;
    before.blank_density = 0.40;
    before.knowledge["paper.white"] = {Origin::given, 0.02};
    const Pack once = fitted_pack(before, first, "monday").pack;
    EXPECT_EQ(unfitted(once).sheet.white_density, 0.12);
    EXPECT_EQ(unfitted(once).known("paper.white"), (Knowledge{Origin::given, 0.02}));
    EXPECT_TRUE(unfitted(once).filters.empty());
    const PackFit twice = fitted_pack(parse_pack(written(once), "old.toml"), rest, "tuesday");
    const PackFit together = fitted_pack(before, all, "both");
    EXPECT_TRUE(twice.pack.readings.text().starts_with(once.readings.text()));
    for (const auto& row : pack_numbers())
        EXPECT_NEAR(row.of(twice.pack), row.of(together.pack), 1e-6 * (1 + std::abs(row.of(together.pack))))
            << row.name();
}

TEST(Fit, UnreadGradesAreServedFromTheReadOnes) {
    const Pack truth = own::old_paper(Contrast::variable);
    auto strips = own::usual_strips();
    strips.push_back({"hard", 15, 40, 4, 20});
    const PackFit fit =
        fitted_pack(Pack{}, own::read(truth, own::patches_of(strips, truth.contrast), 0.01, 3), "strips");
    ASSERT_EQ(fit.pack.filters.size(), 6u);
    const auto deviation = [&](const char* name) { return fit.pack.known(name).deviation.value_or(0); };
    EXPECT_LT(deviation("filter.2.balance"), deviation("filter.3.balance"));
    EXPECT_LT(deviation("filter.3.balance"), deviation("filter.0.balance"));
    Recipe recipe;
    for (const double grade : {0.0, 2.5, 5.0}) {
        recipe.exposures = {{grade, Stops{0}}};
        const WorkingCurve curve = working_curve(fit.pack, recipe);
        EXPECT_TRUE(curve.iso_range);
        for (const auto& at : curve.density) {
            EXPECT_LE(at.low, at.value);
            EXPECT_GE(at.high, at.value);
        }
    }
}

// What the pack states of its filters is not doubted as what is assumed of sets.
TEST(Fit, TakesWhatThePackStatesOfItsHardFilters) {
    const Pack truth = own::old_paper(Contrast::variable);
    const auto strips = own::read(truth, own::patches_of(own::usual_strips(), truth.contrast), 0.01, 3);
    Pack stated;
    stated.filter_set.hard_loss = 0.3;
    stated.knowledge["filter_set.hard_loss"] = {Origin::given, 0.01};
    const auto five = [&](const Pack& prior) {
        const Pack learnt = fitted_pack(prior, strips, "strips").pack;
        return std::pair(learnt.filters.back().speed, learnt.known("filter.5.speed").deviation.value());
    };
    const auto [assumed_speed, assumed_doubt] = five(Pack{});
    const auto [stated_speed, stated_doubt] = five(stated);
    EXPECT_NEAR(stated_speed - assumed_speed, -0.15, 0.03);
    EXPECT_NEAR(std::hypot(stated_doubt, 0.15), assumed_doubt, 0.02);
}

TEST(Fit, NonsenseIsRefusedAndNeverCrashes) {
    EXPECT_THAT(words_of_refusal([] { static_cast<void>(fitted_pack(Pack{}, {}, "none")); }),
                HasSubstr("there are none"));
    std::mt19937 random(7);
    std::uniform_real_distribution<> density(0, 3), seconds(0, 100);
    for (int i = 0; i < 20; ++i) {
        std::vector<Reading> readings(1 + random() % 12);
        for (auto& reading : readings) {
            reading.density = density(random);
            reading.exposure_s = seconds(random);
            reading.develop_s = random() % 3 ? 90 : 0;
            reading.bleach_s = random() % 2 ? seconds(random) : 0;
        }
        try {
            const PackFit fit = fitted_pack(Pack{}, readings, "dice");
            EXPECT_NO_THROW(static_cast<void>(parse_pack(written(fit.pack), "dice.toml")));
        } catch (const Error& error) {
            EXPECT_NE(error.fault(), Fault::internal) << error.what();
        }
    }
}

// A wedge whose exposure nobody told says how steep a paper is and how black, whatever light it had.
TEST(Fit, AWedgeOfUnknownExposureTeachesContrastAndNoSpeed) {
    const Pack truth = own::old_paper(Contrast::variable);
    auto strips = own::slips();
    const auto slips = own::read(truth, own::patches_of(strips, truth.contrast), 0.005, 1);
    const auto wedge_of = [&](double exposure_s, bool is_told) {
        auto rows =
            own::read(truth, own::patches_of({"wedge", 21, exposure_s, 2, 0}, truth.contrast), 0.005, 2);
        if (!is_told)
            for (Reading& row : rows) row.exposure_s.reset();
        rows.insert(rows.end(), slips.begin(), slips.end());
        return fitted_pack(Pack{}, rows, "strips").pack;
    };
    const Pack told = wedge_of(40, true);
    for (const double exposure_s : {10.0, 40.0, 160.0}) {
        const Pack open = wedge_of(exposure_s, false);
        EXPECT_EQ(open.known("speed.log_seconds"), Knowledge{}) << exposure_s;
        EXPECT_FALSE(open.darkroom.anchored);
        EXPECT_NEAR(open.black_density, told.black_density, 0.04) << exposure_s;
        EXPECT_NEAR(open.grains.spread, told.grains.spread, 0.03) << exposure_s;
    }
    // Beside a strip whose seconds are known, both together.
    auto both = own::read(truth, own::patches_of({"timed", 5, 12, 2, 0}, truth.contrast), 0.005, 3);
    auto open = own::read(truth, own::patches_of({"wedge", 21, 160, 2, 0}, truth.contrast), 0.005, 4);
    const Pack timed = fitted_pack(Pack{}, both, "strips").pack;
    for (Reading& row : open) row.exposure_s.reset();
    both.insert(both.end(), open.begin(), open.end());
    const Pack joined = fitted_pack(Pack{}, both, "strips").pack;
    EXPECT_NEAR(joined.speed_log_s, truth.speed_log_s, 3 * *timed.known("speed.log_seconds").deviation);
    EXPECT_NEAR(joined.speed_log_s, timed.speed_log_s, 3 * *timed.known("speed.log_seconds").deviation);
}

}  // namespace
}  // namespace fogproof::tests
