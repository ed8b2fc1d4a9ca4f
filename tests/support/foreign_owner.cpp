// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "support/foreign_owner.hpp"

#include <cmath>
#include <vector>

#include "fogproof/fit/pack_fit.hpp"
#include "pack/schema.hpp"

namespace fogproof::tests::foreign {

Owner::Owner(unsigned seed, double least_scatter, double most_scatter) : paper(seed + 300), random(seed) {
    noise = std::uniform_real_distribution(0.006, 0.015)(random);
    scatter = std::lerp(least_scatter, most_scatter, std::uniform_real_distribution(0.0, 1.0)(random));
    std::mt19937 printing(seed + 900);
    callier = std::uniform_real_distribution(1.0, 1.05)(printing);
    flare = std::uniform_real_distribution(0.005, 0.03)(printing);
    reciprocity = std::uniform_real_distribution(0.92, 1.0)(printing);
}

Pack Owner::unmeasured() {
    Pack prior;
    prior.darkroom.anchored = true;
    prior.darkroom.head = Head::diffuser;
    prior.darkroom.enlarger.callier = head_defaults(Head::diffuser).callier;
    return prior;
}

Pack Owner::measured() {
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

double Owner::acting(double exposure_s) const {
    return strips_s * std::pow(exposure_s / strips_s, reciprocity);
}

double Owner::seconds_acting(double acts_s) const {
    return strips_s * std::pow(acts_s / strips_s, 1 / reciprocity);
}

double Owner::over_paper(NegativeDensity tone, double mean_transmitted) const {
    return -std::log10((1 - flare) * std::pow(10.0, -callier * tone.value) + flare * mean_transmitted);
}

}  // namespace fogproof::tests::foreign
