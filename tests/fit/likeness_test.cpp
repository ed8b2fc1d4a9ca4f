// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// An error that all readings of an instrument share, and that grows with what was read, must not draw a fit
// below its readings. Outside source: Peelle's puzzle, in which a covariance made from the readings
// themselves puts the estimate below all of them (from memory; no handbook at hand).
#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

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
    EXPECT_GT(std::ranges::max(off), 0) << "the fit is below the truth on every print";
}

}  // namespace
}  // namespace fogproof::tests
