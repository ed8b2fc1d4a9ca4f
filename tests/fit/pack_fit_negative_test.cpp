// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Prints read against their negatives tell the Callier factor together with the paper: it lay between them,
// and not over strips exposed under a wedge. Outside source: the density that is at work in an enlarger is Q
// times the diffuse one (A. Callier 1909, from memory).
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "fit/treated_patch.hpp"
#include "fogproof/fit/pack_fit.hpp"
#include "pack/uncertainty.hpp"
#include "support/own_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr double kReadTo = 0.008;  // D

Pack truth() {
    Pack pack;
    pack.blank_density = 0.35;
    pack.filters = {{2, -0.5, 0.02}, {3, -0.8, 0.0}};
    pack.darkroom.anchored = true;
    return pack;
}

// Both halves of a print through filter 2: 16 tones of a negative from 0.1 to 1.4, read as if by one Callier
// factor while another was at work.
std::vector<Reading> print_rows(double at_work, double read_by, bool tells) {
    std::vector<Reading> rows;
    for (const double bleach_s : {0.0, 30.0})
        for (int tone = 0; tone < 16; ++tone) {
            Reading row;
            row.strip = bleach_s > 0 ? "print-bleached" : "print-before";
            row.wedge_density = at_work * (0.1 + 1.3 * tone / 15);
            row.exposure_s = 14, row.filter = 2, row.restrainer_ml_l = 0, row.develop_s = 90;
            row.bleach_s = bleach_s;
            rows.push_back(row);
        }
    rows = own::read(truth(), rows, kReadTo, 5);
    for (Reading& row : rows) {
        row.wedge_density = *row.wedge_density * read_by / at_work;
        if (tells) row.callier = read_by;
    }
    return rows;
}

Pack fitted(const std::vector<Reading>& print) {
    auto rows = own::read(truth(),
                          own::patches_of({{"fixed", 1, 0, 2, 0, 0},
                                           {"fog", 1, 0},
                                           {"soft", 21, 30, 2},
                                           {"soft-bleached", 21, 30, 2, 0, 90, 40},
                                           {"hard", 21, 30, 3}},
                                          Contrast::variable),
                          kReadTo, 3);
    rows.insert(rows.end(), print.begin(), print.end());
    Pack prior;
    prior.darkroom.anchored = true;
    return fitted_pack(prior, rows, "test").pack;
}

const FitRecord::Number* callier_in(const Pack& pack) {
    const auto found = std::ranges::find(pack.fit.numbers, "enlarger.callier", &FitRecord::Number::name);
    return found == pack.fit.numbers.end() ? nullptr : &*found;
}

}  // namespace

TEST(NegativeInTheCarrier, ItsCallierFactorIsFittedWithThePaper) {
    constexpr double kAtWork = 1.12;
    const Pack told = fitted(print_rows(kAtWork, 1, true)), untold = fitted(print_rows(kAtWork, 1, false));
    const auto& callier = told.darkroom.enlarger.callier;
    const double deviation = told.known("enlarger.callier").deviation.value_or(1);
    EXPECT_NEAR(callier, kAtWork, 3 * deviation);
    EXPECT_LT(deviation, 0.03) << "of 0.1 before";
    // Taken for a wedge on the paper, its tones draw the paper away from what its strips said.
    const auto off = [](const Pack& pack) { return std::abs(pack.speed_log_s - truth().speed_log_s); };
    EXPECT_LT(off(told), 0.02);
    EXPECT_GT(off(untold), off(told));
    EXPECT_EQ(untold.darkroom.enlarger.callier, 1);
    EXPECT_LT(told.sheet_scatter, untold.sheet_scatter) << "nor is it the sheet's scatter";
}

TEST(NegativeInTheCarrier, IsNotAskedWhereAllWedgesLayOnThePaper) {
    EXPECT_EQ(callier_in(fitted({})), nullptr);
    EXPECT_NE(callier_in(fitted(print_rows(1.05, 1, true))), nullptr);
}

// The same print told by another factor is the same print.
TEST(NegativeInTheCarrier, CountsBySeveralFactorsAlike) {
    const Pack by_one = fitted(print_rows(1.1, 1, true)), by_other = fitted(print_rows(1.1, 1.3, true));
    EXPECT_NEAR(by_one.darkroom.enlarger.callier, by_other.darkroom.enlarger.callier, 1e-6);
    EXPECT_NEAR(by_one.speed_log_s, by_other.speed_log_s, 1e-6);
}

TEST(NegativeInTheCarrier, LiesOverThePaperAsThePacksFactorHasIt) {
    Reading row;
    row.wedge_density = 0.6, row.callier = 1.2;
    Pack pack;
    pack.darkroom.enlarger.callier = 1.4;
    EXPECT_NEAR(treated(row, pack).wedge_density, 0.7, 1e-12);
    EXPECT_NEAR(treated(row, pack).by_callier, 0.5, 1e-12);
    row.callier.reset();
    EXPECT_EQ(treated(row, pack).wedge_density, 0.6);
    EXPECT_EQ(treated(row, pack).by_callier, 0);
}

}  // namespace fogproof::tests
