// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Packs drawn at random, and what the reader says of a text.
#pragma once

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
#include "support/refusal.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

using testing::HasSubstr;

// ISO range units; a hundredth of what a printed R shows, far above the root finders' 1e-7.
inline constexpr double kRange = 0.01;
// log10 exposure; the promise of a constant speed point.
constexpr double kSpeed = 0.001;
// D; the sheet's own search for a layer density ends well below this.
constexpr double kDensity = 1e-6;

inline Error pack_refusal(const std::string& text) {
    return refusal([&] { static_cast<void>(parse_pack(text, "old.toml")); });
}

// Print density of the fog-free paper, nominal development, through a filter: drawn with the rooms
// themselves, so that it knows nothing of how the pack room solved for the filter.
class DrawnCurve {
  public:
    DrawnCurve(const Pack& pack, const PaperModel& model, Filter filter)
        : model_(model), filter_(filter), developer_(fogless(model.emulsion), nominal(pack)) {}

    double operator()(double log_h) const {
        const double h = std::pow(10.0, log_h);
        return model_.sheet.density(developer_.developed({h * filter_.blue, h * filter_.green})).value;
    }

    // Plain bisection.
    double exposure_for(double density) const {
        double low = -8, high = 8;
        for (int i = 0; i < 60; ++i) {
            const double middle = (low + high) / 2;
            ((*this)(middle) < density ? low : high) = middle;
        }
        return low;
    }

    double speed_point() const { return exposure_for((*this)(-30) + 0.60); }
    // T 0.04 above minimum and 90 % of maximum: Focal Encyclopedia of Photography, p. 679; on net density as
    // ISO 6846 has it, from memory.
    double iso_range() const {
        const double least = (*this)(-30), most = (*this)(30);
        return 100 * (exposure_for(least + 0.90 * (most - least)) - exposure_for(least + 0.04));
    }

  private:
    static Emulsion fogless(Emulsion emulsion) {
        emulsion.fog.share = 0;
        return emulsion;
    }
    static DevelopStep nominal(const Pack& pack) {
        return {0, pack.development.nominal_s, pack.development.nominal_c};
    }

    PaperModel model_;
    Filter filter_;
    Developer developer_;
};

inline Pack random_pack(std::mt19937_64& dice) {
    std::uniform_real_distribution<double> share(0, 1);
    const auto one_of = [&](int n) { return int(share(dice) * n); };
    const auto know = [&](Pack& pack, const std::string& name, bool is_number) {
        Knowledge known{Origin(one_of(3)), std::nullopt};
        if (is_number && one_of(2)) known.deviation = std::exp(20 * share(dice) - 15);
        if (known != Knowledge{}) pack.knowledge[name] = known;
    };
    Pack pack;
    const std::string kNames[] = {"", "attic", "say \"grade\" \\ two", "Blau\xc3\xa4tzung \xe2\x82\xac",
                                  "two words  and three"};
    const std::string kNotes[] = {"",          "one", "two\nlines", "\nleading", "quotes \"\"\" inside\n\\n",
                                  "cr\r\nlf\n"};
    pack.name = kNames[one_of(5)];
    pack.notes = kNotes[one_of(6)];
    pack.contrast = Contrast(one_of(2));
    pack.surface = Surface(one_of(3));
    pack.darkroom.anchored = one_of(2);
    know(pack, "paper.contrast", false);
    know(pack, "paper.surface", false);
    for (const auto& row : pack_numbers()) {
        row.in(pack) = std::lerp(row.minimum, row.maximum, share(dice));
        // A departure is learnt by a fit, which knows its deviation.
        if (is_departure(row))
            pack.knowledge[row.name()] = {Origin::partly_measured, std::exp(5 * share(dice) - 5)};
        else
            know(pack, row.name(), true);
    }
    if (pack.contrast == Contrast::variable)
        for (double grade = -1 + share(dice); grade < 5; grade += 0.1 + 2 * share(dice)) {
            PackFilter filter{grade, 10 * share(dice) - 5, 4 * share(dice) - 2};
            for (const auto& row : filter_numbers()) know(pack, filter_number_name(filter, row.key), true);
            pack.filters.push_back(filter);
        }
    return pack;
}

}  // namespace fogproof::tests
