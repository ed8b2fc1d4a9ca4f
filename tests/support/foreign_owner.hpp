// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Whoever owns a foreign paper: reads it with more or less noise than a fit takes for granted, off sheets
// that differ, and prints with an enlarger of which no number is told.
#pragma once

#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "fogproof/fit/pack_fit.hpp"
#include "pack/schema.hpp"
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
    explicit Owner(unsigned seed, double least_scatter = 0, double most_scatter = 0.015)
        : paper(seed + 300), random(seed) {
        noise = std::uniform_real_distribution(0.006, 0.015)(random);
        scatter = std::lerp(least_scatter, most_scatter, std::uniform_real_distribution(0.0, 1.0)(random));
        std::mt19937 printing(seed + 900);
        callier = std::uniform_real_distribution(1.0, 1.05)(printing);
        flare = std::uniform_real_distribution(0.005, 0.03)(printing);
        reciprocity = std::uniform_real_distribution(0.92, 1.0)(printing);
    }
    double sheet() { return scatter * std::normal_distribution<>(0, 1)(random); }

    /// Of a head that diffuses, its seconds anchored.
    [[nodiscard]] static Pack unmeasured() {
        Pack prior;
        prior.darkroom.anchored = true;
        prior.darkroom.head = Head::diffuser;
        prior.darkroom.enlarger.callier = head_defaults(Head::diffuser).callier;
        return prior;
    }

    /// By slips and three strips.
    Pack measured() {
        const double restrainer = std::uniform_int_distribution(0, 1)(random) ? 20 : 0;
        const double bleach = std::round(std::uniform_real_distribution(0.5, 1.0)(random) *
                                         paper.clearing_seconds(restrainer, 0.03));
        Densitometer densitometer(paper, unsigned(random()), noise);
        std::vector<Reading> readings;
        // Rows of one sheet, all darker or lighter by its own.
        const auto add = [&](std::vector<Reading> rows) {
            const double own = std::round(100 * sheet()) / 100;
            for (Reading& row : rows) {
                row.density += own;
                readings.push_back(row);
            }
        };
        for (int i = 0; i < 2; ++i) readings.push_back(densitometer.read("fixed", {0, 0, kSoft, 0, 0, 0}));
        for (const double dose : {0.0, 10.0, 20.0, 40.0})
            add({densitometer.read("fog", {0, 0, kSoft, dose, 90, 0}),
                 densitometer.read("fog", {0, 0, kSoft, dose, 90, 0})});
        strips_s = paper.black_seconds(kSoft, restrainer);
        const auto strip = [&](const std::string& name, double filter, double bleach_s) {
            std::vector<Reading> rows;
            densitometer.read_strip(
                rows, name, {paper.black_seconds(filter, restrainer), 0, filter, restrainer, 90, bleach_s});
            add(rows);
        };
        strip("soft", kSoft, 0);
        strip("soft-bleached", kSoft, bleach);
        strip("hard", kHard, 0);
        return fitted_pack(unmeasured(), readings, "foreign").pack;
    }

    /// Seconds of the strips' exposure that do what so many under the enlarger do.
    [[nodiscard]] double acting(double exposure_s) const {
        return strips_s * std::pow(exposure_s / strips_s, reciprocity);
    }
    [[nodiscard]] double seconds_acting(double acts_s) const {
        return strips_s * std::pow(acts_s / strips_s, 1 / reciprocity);
    }
    /// Density that lies over the paper behind a tone of a frame which transmits so much in the mean.
    [[nodiscard]] double over_paper(NegativeDensity tone, double mean_transmitted) const {
        return -std::log10((1 - flare) * std::pow(10.0, -callier * tone.value) + flare * mean_transmitted);
    }
};

}  // namespace fogproof::tests::foreign
