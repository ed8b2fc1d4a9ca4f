// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Whoever owns a foreign paper: reads it with more or less noise than a fit takes for granted, off sheets
// that differ, and prints with an enlarger of which no number is told.
#pragma once

#include <random>

#include "fogproof/pack/pack.hpp"
#include "support/foreign_darkroom.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests::foreign {

struct Owner {
    static constexpr double kSoft = 2, kHard = 4;

    Paper paper;
    double noise, scatter;  ///< of readings and of sheets, D
    std::mt19937 random;
    double callier = 1, flare = 0, reciprocity = 1;  ///< of the enlarger, and of the paper in long exposures
    double strips_s = 0;  ///< how long the strips were exposed, soft one; the reciprocity counts from there

    /// Sheets scatter by something between these.
    explicit Owner(unsigned seed, double least_scatter = 0, double most_scatter = 0.015);
    double sheet() { return scatter * std::normal_distribution<>(0, 1)(random); }

    /// Of a head that diffuses, its seconds anchored.
    [[nodiscard]] static Pack unmeasured();

    /// By slips and three strips.
    Pack measured();

    /// Seconds of the strips' exposure that do what so many under the enlarger do.
    [[nodiscard]] double acting(double exposure_s) const;
    [[nodiscard]] double seconds_acting(double acts_s) const;
    /// Density that lies over the paper behind a tone of a frame which transmits so much in the mean.
    [[nodiscard]] double over_paper(NegativeDensity tone, double mean_transmitted) const;
};

}  // namespace fogproof::tests::foreign
