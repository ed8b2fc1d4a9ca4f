// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How a fit fares on papers that do not obey our laws.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <iostream>

#include "fogproof/calibrate/fit.hpp"
#include "fogproof/print/working_curve.hpp"
#include "support/foreign_darkroom.hpp"

namespace fogproof {
namespace {

struct Tally {
    double below = 0, above = 0, bias = 0;
    double width = 0;
    int count_below = 0, count_above = 0, inside = 0, count = 0;

    void add(double truth, const Interval& at) {
        const double miss = at.value - truth;
        (truth < 1.2 ? below : above) += miss * miss;
        ++(truth < 1.2 ? count_below : count_above);
        inside += truth >= at.low && truth <= at.high;
        width += (at.high - at.low) / 2;
        ++count;
    }
    void add(const Tally& other) {
        below += other.below, above += other.above;
        count_below += other.count_below, count_above += other.count_above;
        inside += other.inside, count += other.count, width += other.width;
    }
    [[nodiscard]] double rms_below() const { return std::sqrt(below / std::max(count_below, 1)); }
    [[nodiscard]] double rms_above() const { return std::sqrt(above / std::max(count_above, 1)); }
    [[nodiscard]] double coverage() const { return double(inside) / std::max(count, 1); }
    [[nodiscard]] std::string words() const {
        char text[120];
        std::snprintf(text, sizeof text, "rms %.3f %.3f coverage %.1f %% half width %.3f", rms_below(), rms_above(),
                      100 * coverage(), width / std::max(count, 1));
        return text;
    }
};

struct Trial {
    foreign::Paper paper;
    PackFit fit;
    double restrainer, bleach;
};

constexpr double kSoft = 2, kHard = 4;

// A fixed-only slip, fog slips at four restrainer doses, three strips.
Trial trial(unsigned seed, foreign::Darkroom darkroom) {
    foreign::Paper paper(seed, darkroom);
    std::mt19937 random(seed + 1000);
    const double restrainer = std::uniform_int_distribution(0, 1)(random) ? 20 : 0;
    const double bleach = std::round(std::uniform_real_distribution(0.5, 1.0)(random) *
                                     paper.clearing_seconds(restrainer, 0.03));
    foreign::Densitometer densitometer(paper, seed, 0.01);
    std::vector<Reading> readings;
    for (int i = 0; i < 2; ++i) readings.push_back(densitometer.read("fixed", {0, 0, kSoft, 0, 0, 0}));
    for (const double dose : {0.0, 10.0, 20.0, 40.0})
        for (int i = 0; i < 2; ++i) readings.push_back(densitometer.read("fog", {0, 0, kSoft, dose, 90, 0}));
    const double soft = paper.black_seconds(kSoft, restrainer), hard = paper.black_seconds(kHard, restrainer);
    densitometer.read_strip(readings, "soft", {soft, 0, kSoft, restrainer, 90, 0});
    densitometer.read_strip(readings, "soft-bleached", {soft, 0, kSoft, restrainer, 90, bleach});
    densitometer.read_strip(readings, "hard", {hard, 0, kHard, restrainer, 90, 0});
    return {paper, fitted_pack(Pack{}, readings, "foreign"), restrainer, bleach};
}

Tally tally(const Trial& t, double filter, double restrainer, double bleach_s) {
    Recipe recipe;
    recipe.exposures = {{filter, Stops{0}}};
    recipe.restrainer_ml_l = restrainer;
    recipe.bleach = Seconds{bleach_s};
    const WorkingCurve curve = working_curve(t.fit.pack, recipe);
    const double clear = std::log10(t.paper.black_seconds(filter, restrainer));
    Tally result;
    for (std::size_t i = 0; i < curve.log_seconds.size(); ++i) {
        if (curve.log_seconds[i] > clear || curve.log_seconds[i] < clear - 2.6) continue;
        const double truth =
            t.paper.density({std::pow(10.0, curve.log_seconds[i]), 0, filter, restrainer, 90, bleach_s});
        result.add(truth, curve.density[i]);
    }
    return result;
}

void fare(foreign::Darkroom darkroom) {
    Tally seen, unseen, harder, grades, doses, each[3];
    const char* count = std::getenv("PACKS");
    const bool verbose = std::getenv("VERBOSE");
    for (unsigned seed = 1; seed <= unsigned(count ? std::atoi(count) : 24); ++seed) {
        const Trial t = trial(seed, darkroom);
        Tally own;
        seen.add(tally(t, kSoft, t.restrainer, t.bleach));
        for (const double share : {0.4, 0.7, 1.4}) own.add(tally(t, kSoft, t.restrainer, share * t.bleach));
        unseen.add(own);
        Tally hard;
        for (const double share : {0.5, 1.0}) hard.add(tally(t, kHard, t.restrainer, share * t.bleach));
        harder.add(hard);
        Tally other;
        int which = 0;
        for (const double filter : {1.0, 3.0, 5.0}) {
            const Tally one = tally(t, filter, t.restrainer, 0);
            each[which++].add(one);
            other.add(one);
        }
        grades.add(other);
        Tally dose;
        for (const double ml : {5.0, 15.0, 30.0}) dose.add(tally(t, kSoft, ml, 0));
        doses.add(dose);
        if (verbose)
            std::cout << seed << " " << t.paper.laws() << " law " << t.fit.pack.law_scatter << " rms "
                      << t.fit.rms << (t.fit.contradictions.empty() ? "" : t.fit.in_words()) << " | unseen "
                      << own.words() << " | hard " << hard.words() << " | grades " << other.words()
                      << " | doses " << dose.words() << "\n";
    }
    // rms at bleach times never read, and how often the 95 % band holds the truth there.
    EXPECT_LE(unseen.rms_below(), 0.04);
    EXPECT_LE(unseen.rms_above(), 0.06);
    EXPECT_GE(unseen.coverage(), 0.90);
    EXPECT_GE(seen.coverage(), 0.90);
    EXPECT_GE(harder.coverage(), 0.90);
    // Filters never read.
    EXPECT_GE(grades.coverage(), 0.90);
    std::cout << "seen   " << seen.words() << "\nunseen " << unseen.words() << "\nharder " << harder.words()
              << "\ngrades " << grades.words() << "\ndoses  " << doses.words() << "\n";
    for (const auto& one : each) std::cout << one.words() << "\n";
}

TEST(ForeignPaper, UnseenBleachTimes) {
    fare(foreign::Darkroom::first);
}

TEST(ForeignPaper, OtherLawsOfRestrainer) {
    fare(foreign::Darkroom::second);
}

}  // namespace
}  // namespace fogproof
