// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// An error that all readings of an instrument share, and that grows with what was read, must not draw a fit
// below its readings. Outside source: Peelle's puzzle, in which a covariance made from the readings
// themselves puts the estimate below all of them, and the nearer to nought the more there are (Fruehwirth,
// Neudecker and Leeb, EPJ Web of Conferences 27 (2012) 00008). The puzzle's own figures are from memory.
#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <algorithm>
#include <vector>

#include "fit/likeness.hpp"
#include "fogproof/fit/pack_fit.hpp"
#include "reading/flatbed_doubt.hpp"
#include "support/own_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

Pack attic_paper() {
    Pack pack = own::old_paper(Contrast::variable);
    pack.filters = {{2, -0.5, 0.02}};
    pack.darkroom.anchored = true;
    return pack;
}

// Both halves of a print with deep shadows, off a flatbed that is right and might be wrong.
std::vector<Reading> off_a_flatbed(unsigned seed) {
    std::vector<Reading> rows;
    for (const double bleach_s : {0.0, 30.0})
        for (int tone = 0; tone < 17; ++tone) {
            Reading row;
            row.strip = bleach_s > 0 ? "print-bleached" : "print-before";
            row.wedge_density = 0.1 + 1.3 * tone / 16;
            row.exposure_s = tone < 16 ? 60 : 0;
            row.filter = 2, row.restrainer_ml_l = 0, row.develop_s = 90, row.bleach_s = bleach_s;
            rows.push_back(row);
        }
    rows = own::read(attic_paper(), rows, 0.008, seed);
    reading::FlatbedDoubt doubt;
    doubt.whites = 0.024;
    for (Reading& row : rows) row.density_error = 0.008;
    reading::tell_flatbed_doubt(rows, doubt);
    return rows;
}

// 1.5 and 1.0 of one thing, each to a tenth by itself, and all to a fifth together: the puzzle's answer is
// 0.88.
TEST(Likeness, TwoReadingsOfOnePatchAreMetBetweenThem) {
    std::vector<Reading> rows(2);
    for (Reading& row : rows) row.strip = "puzzle", row.exposure_s = 10, row.instrument = "flatbed";
    rows[0].density = 1.5, rows[1].density = 1.0;
    for (Reading& row : rows) row.density_error = row.density / 10, row.dark_error = row.density / 5;
    const fit::ErrorSpread spread = fit::Likeness(rows, Pack{}).spread({0.001, 0, 0});
    const Eigen::VectorXd one = spread.whitened(Eigen::Vector2d(1, 1)),
                          read = spread.whitened(Eigen::Vector2d(1.5, 1.0));
    const double own = 1 / 0.0225 + 1 / 0.01;
    EXPECT_NEAR(one.dot(read) / one.dot(one), (1.5 / 0.0225 + 1.0 / 0.01) / own, 1e-6);
}

TEST(Likeness, AnInstrumentsErrorDoesNotExplainTheChanceOfItsReadings) {
    Pack prior = own::nothing_known(Contrast::variable);
    prior.darkroom.anchored = true;
    std::vector<double> off;
    for (unsigned seed = 1; seed <= 12; ++seed)
        off.push_back(fitted_pack(prior, off_a_flatbed(seed), "test").pack.black_density -
                      attic_paper().black_density);
    double mean = 0;
    for (const double each : off) mean += each / double(off.size());
    EXPECT_NEAR(mean, 0, 0.04);
    // Of twelve fits that err either way alike, fewer than two lie above in 3 of 1,000 sets.
    EXPECT_GE(std::ranges::count_if(off, [](double each) { return each > 0; }), 2)
        << "the fit is below the truth on nearly every print";
}

}  // namespace
}  // namespace fogproof::tests
