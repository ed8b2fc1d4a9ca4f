// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The fit of a pack to readings of papers that obey our own laws: what goes in must come out, as well known
// as it says.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "fogproof/base/error.hpp"
#include "fogproof/base/whole_file.hpp"
#include "fogproof/calibrate/fit.hpp"
#include "fogproof/calibrate/next_strip.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/pack/from_slips.hpp"
#include "fogproof/pack/schema.hpp"
#include "fogproof/pack/uncertainty.hpp"
#include "fogproof/print/working_curve.hpp"
#include "support/own_strips.hpp"

using namespace fogproof;

namespace {

Pack described() {
    Slips slips;
    slips.white_density = 0.08;
    slips.blank_density = 0.40;
    Pack pack = pack_from_slips(slips);
    pack.anchored = true;
    return pack;
}

// What its owner does not know of it.
Pack truth_of(const Pack& described) {
    Pack truth = described;
    truth.black_density = 1.98;
    truth.speed_log_s = 0.62;
    truth.grains.spread = 0.175;
    truth.restrainer = {12, 1.05, 0.35};
    truth.bleach.per_second = 0.0045;
    truth.bleach.starvation = 0.12;
    return truth;
}

const std::vector<own::Strip> kStrips{
    {"fixed", 1, 0, 2, 0, 0},
    {"blank", 1, 0, 2, 0, 90},
    {"blank-5", 1, 0, 2, 5, 90},
    {"blank-10", 1, 0, 2, 10, 90},
    {"blank-20", 1, 0, 2, 20, 90},
    {"soft", 21, 30, 2, 10, 90},
    {"soft-bleached", 21, 30, 2, 10, 90, 40},
    {"hard", 21, 30, 4, 10, 90},
    {"hard-bleached", 21, 30, 4, 10, 90, 70},
};

PackFit fit_of(const Pack& prior, const Pack& truth, double noise, unsigned seed,
               const std::vector<own::Strip>& strips = kStrips) {
    return fitted_pack(prior, own::read(truth, own::patches_of(strips, prior.contrast), noise, seed),
                       "made by a test");
}

const FittedNumber* number_called(const PackFit& fit, const std::string& name) {
    const auto found = std::ranges::find(fit.numbers, name, &FittedNumber::name);
    return found == fit.numbers.end() ? nullptr : &*found;
}

}  // namespace

TEST(Readings, ColumnsComeInAnyOrderAndEmptyCellsMeanNominal) {
    const auto readings =
        parse_readings("# a comment\r\ndensity,strip,filter\r\n0.41,\"a, b\",\r\n1.2,c,3\r\n", "r.csv");
    ASSERT_EQ(readings.size(), 2u);
    EXPECT_EQ(readings[0].strip, "a, b");
    EXPECT_FALSE(readings[0].filter);
    EXPECT_EQ(readings[0].bleach_s, 0);
    EXPECT_EQ(*readings[1].filter, 3);
    EXPECT_EQ(readings[1].density, 1.2);
}

TEST(Readings, AllBadRowsAreToldAtOnceByLine) {
    try {
        static_cast<void>(parse_readings("strip,density\na,0.1\nb,nan\nc,\nd,12\n", "r.csv"));
        FAIL() << "three bad rows";
    } catch (const Error& error) {
        const std::string words = error.what();
        EXPECT_EQ(error.fault(), Fault::data);
        for (const char* line : {"r.csv:3:", "r.csv:4:", "r.csv:5:"})
            EXPECT_NE(words.find(line), std::string::npos) << words;
    }
}

TEST(Readings, AppendingNeverTouchesWhatStandsThere) {
    const auto path =
        std::filesystem::temp_directory_path() / ("fogproof-readings-" + std::to_string(std::rand()));
    Reading reading;
    reading.strip = "first";
    reading.density = 0.5;
    append_readings(path, std::vector<Reading>{reading}, "one");
    const std::string before = read_whole(path);
    reading.strip = "second";
    append_readings(path, std::vector<Reading>{reading}, "two");
    const std::string after = read_whole(path);
    EXPECT_EQ(after.substr(0, before.size()), before);
    EXPECT_EQ(read_readings_file(path).size(), 2u);
    std::filesystem::remove(path);
}

TEST(Fit, TwoSlipsAloneFixWhiteAndFog) {
    const Pack prior;
    const Pack truth = truth_of(described());
    const PackFit fit = fit_of(prior, truth, 0, 1, {{"fixed", 1, 0, 2, 0, 0}, {"blank", 1, 0, 2, 0, 90}});
    ASSERT_EQ(fit.ending, Ending::converged);
    EXPECT_NEAR(fit.pack.sheet.white_density, 0.08, 0.005);
    EXPECT_NEAR(fit.pack.blank_density, 0.40, 0.01);
}

// Clean readings give back the curve they were read from; constants that the readings fix, to one percent.
TEST(Fit, CleanReadingsGiveTheConstantsBack) {
    const Pack prior = described(), truth = truth_of(prior);
    // Doubtful about everything that differs, so that no prior holds it back.
    Pack open = prior;
    for (const char* name :
         {"restrainer.half_ml_l", "restrainer.steepness", "restrainer.speed_loss", "grains.spread"})
        open.knowledge[name] = {Origin::assumed, 3.0 * std::abs(pack_number(name)->of(prior))};
    // Soak, order and reciprocity are known here: what is asked is whether the rest is found.
    for (const char* name : {"bleach.soak_s", "bleach.order", "bleach.tiring", "enlarger.reciprocity",
                             "grains.skew", "grains.peak", "grains.green_spread", "paper.surface_light"})
        if (pack_number(name))
            open.knowledge[name] = {Origin::given,
                                    1e-4 * std::max(1.0, std::abs(pack_number(name)->of(prior)))};
    const PackFit fit = fit_of(open, truth, 0, 1);
    ASSERT_EQ(fit.ending, Ending::converged);
    EXPECT_LT(fit.rms, 0.001);
    constexpr double kOnePercent = 0.01;
    for (const char* name :
         {"paper.white", "paper.black", "fog.blank", "grains.spread", "restrainer.half_ml_l",
          "restrainer.steepness", "bleach.per_second", "bleach.starvation"}) {
        const double found = pack_number(name)->of(fit.pack), wanted = pack_number(name)->of(truth);
        EXPECT_NEAR(found / wanted, 1, kOnePercent) << name;
    }
    // Speed, what restrainer costs of it and what each filter adds are known only together here: every strip
    // lay under 10 ml/L. Together they must give the densities.
    for (const double bleach_s : {0.0, 25.0}) {
        Recipe recipe;
        recipe.exposures = {{2.0, Stops{0}}};
        recipe.restrainer_ml_l = 10;
        recipe.bleach = Seconds{bleach_s};
        const WorkingCurve found = working_curve(fit.pack, recipe), wanted = working_curve(truth, recipe);
        for (std::size_t i = 0; i < found.density.size(); ++i)
            EXPECT_NEAR(found.density[i].value, wanted.density[i].value, 0.01)
                << "at " << found.log_seconds[i];
    }
}

// Truth drawn from the prior, noise of 0.02: the 95 % interval of density holds it in 93 to 97 % of all
// cases.
TEST(Fit, IntervalsOfDensityHoldTheTruthAsOftenAsTheySay) {
    const Pack prior = described();
    int inside = 0, count = 0;
    constexpr int kRuns = 500;
    std::mt19937 random(7);
    const std::vector<own::Strip> few{{"fixed", 1, 0, 2, 0, 0},
                                      {"blank", 1, 0, 2, 0, 90},
                                      {"blank-10", 1, 0, 2, 10, 90},
                                      {"soft", 11, 30, 2, 10, 90},
                                      {"bleached", 11, 30, 2, 10, 90, 40}};
    for (int run = 0; run < kRuns; ++run) {
        Pack truth = prior;
        std::normal_distribution<> chance(0, 1);
        for (const auto& row : pack_numbers()) {
            const double doubt = deviation_of(prior, row);
            if (doubt <= 0 || row.section == "tone" || row.section == "scatter" || row.section == "redevelop")
                continue;
            const double before = row.of(prior);
            double moved = goes_by_factor(row) && before > 0
                               ? before * std::exp(std::log1p(doubt / before) * chance(random))
                               : before + doubt * chance(random);
            row.in(truth) = std::clamp(moved, row.minimum, row.maximum);
        }
        Recipe recipe;
        recipe.exposures = {{2.0, Stops{0}}};
        recipe.restrainer_ml_l = 10;
        recipe.bleach = Seconds{20};
        WorkingCurve at;
        std::vector<double> real;
        try {
            const PackFit fit = fit_of(prior, truth, 0.02, unsigned(run), few);
            at = working_curve(fit.pack, recipe);
            // One exposure a run, so that runs are independent.
            const std::size_t point = 60 + std::size_t(run) % 40;
            auto patch = own::patches_of({{"unseen", 1, std::pow(10, at.log_seconds[point]), 2, 10, 90, 20}},
                                         prior.contrast);
            real = Predictor(truth, patch).densities(truth);
            inside += real[0] >= at.density[point].low && real[0] <= at.density[point].high;
            ++count;
        } catch (const Error&) {
            // A drawn truth that contradicts itself is no paper.
        }
    }
    const double coverage = double(inside) / count;
    std::printf("coverage %.1f %% of %d runs\n", 100 * coverage, count);
    EXPECT_GT(count, kRuns * 9 / 10);
    EXPECT_GE(coverage, 0.93);
    EXPECT_LE(coverage, 0.97);
}

TEST(Fit, SwappedFiltersAreNoticedAndNamed) {
    const Pack prior = described(), truth = truth_of(prior);
    auto readings = own::read(truth, own::patches_of(kStrips, prior.contrast), 0.01, 3);
    for (auto& reading : readings)
        if (reading.strip == "hard") reading.filter = 2;
    const PackFit fit = fitted_pack(prior, readings, "mislabelled");
    ASSERT_FALSE(fit.contradictions.empty());
    EXPECT_EQ(fit.contradictions.front().strip, "hard");
    ASSERT_TRUE(fit.contradictions.front().better);
    EXPECT_NE(fit.contradictions.front().better->find("filter 4"), std::string::npos)
        << *fit.contradictions.front().better;
    EXPECT_NE(fit.in_words().find("hard"), std::string::npos);
}

TEST(Fit, SaysWhatWasMeasuredAndWhatStaysAssumed) {
    const Pack prior = described();
    const PackFit fit = fit_of(prior, truth_of(prior), 0.01, 4);
    ASSERT_TRUE(number_called(fit, "restrainer.half_ml_l"));
    EXPECT_NE(number_called(fit, "restrainer.half_ml_l")->state, Origin::assumed);
    EXPECT_EQ(fit.pack.known("redevelop.covering").origin, Origin::assumed) << "no strip was redeveloped";
    EXPECT_EQ(fit.pack.known("develop.per_kelvin").origin, Origin::assumed);
}

TEST(Fit, LaterReadingsJoinTheEarlierOnesAndThePackKeepsThemAll) {
    const Pack prior = described(), truth = truth_of(prior);
    const std::vector<own::Strip> first(kStrips.begin(), kStrips.begin() + 6),
        second(kStrips.begin() + 6, kStrips.end());
    const PackFit once = fit_of(prior, truth, 0.01, 5, first);
    const Pack kept = parse_pack(written(once.pack), "kept.toml");
    const PackFit twice =
        fitted_pack(kept, own::read(truth, own::patches_of(second, prior.contrast), 0.01, 6), "later");
    EXPECT_EQ(twice.readings.size(), once.readings.size() + own::patches_of(second, prior.contrast).size());
    ASSERT_TRUE(number_called(twice, "bleach.per_second"));
    EXPECT_LT(number_called(twice, "bleach.per_second")->deviation,
              number_called(twice, "bleach.per_second")->doubt_before);
    const Pack again = parse_pack(written(twice.pack), "again.toml");
    EXPECT_EQ(written(again), written(twice.pack));
}

// The strip that the arithmetic names is really the one that helps: read, it leaves less doubt than the
// others tried.
TEST(NextStrip, NamedStripNarrowsTheNextPrintMoreThanAnother) {
    const Pack prior = described(), truth = truth_of(prior);
    const PackFit slips =
        fit_of(prior, truth, 0.01, 8, {{"fixed", 1, 0, 2, 0, 0}, {"blank", 1, 0, 2, 0, 90}});
    const auto next = next_strip(slips.pack);
    ASSERT_TRUE(next);
    EXPECT_LT(next->doubt_then, next->doubt_now);
    EXPECT_GT(next->bleach_s, 0) << "how the paper bleaches is what nobody knows of it";
    const auto doubt_after = [&](double grade, double restrainer, double bleach_s) {
        const auto patches =
            own::patches_of({{"next", 11, 40, grade, restrainer, 90, bleach_s}}, prior.contrast);
        return next_strip(fitted_pack(slips.pack, own::read(truth, patches, 0.01, 9), "next").pack)
            ->doubt_now;
    };
    const double named = doubt_after(*next->grade, next->restrainer_ml_l, next->bleach_s);
    EXPECT_LT(named, next->doubt_now);
    EXPECT_LT(named, doubt_after(4, 25, 0));
}
