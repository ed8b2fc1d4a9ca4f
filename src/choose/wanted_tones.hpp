// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a print is meant to look like, tone by tone, and how far a print is from it.
#pragma once

#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "fogproof/emulsion/emulsion.hpp"
#include "fogproof/rooms.hpp"
#include "negative/tones.hpp"

namespace fogproof::print {
class PrintModel;
}

namespace fogproof::choose {

/// What is another at one of the places that masks and the fog of the sheet's edges tell apart.
struct PlaceWork {
    double log_light = 0;  ///< log10 exposure that it gets beside the main exposure
    Seconds bleach;        ///< in the pack's bath, whose dose it gets beside the bath's
    double fog = 0;        ///< share of the fog that the sheet's edge has more than its middle
    struct Burn {
        double grade;
        double ratio;  ///< of its seconds to those of the main exposure
        friend bool operator==(const Burn&, const Burn&) = default;
    };
    std::vector<Burn> burns{};  ///< through filters of their own

    friend bool operator==(const PlaceWork&, const PlaceWork&) = default;

    /// What its tones share with those of other places: their L* over the light that `shift` has moved.
    [[nodiscard]] PlaceWork curve() const {
        PlaceWork work = *this;
        if (burns.empty()) work.log_light = 0;
        return work;
    }
    [[nodiscard]] double shift() const { return burns.empty() ? log_light : 0; }
    /// All light of a unit exposure through this filter and of the burns beside it; `filter_of` gives the
    /// filter of a grade.
    [[nodiscard]] Filter light_through(const Filter& main, double reciprocity, const auto& filter_of) const {
        if (burns.empty()) return main;
        const double own = std::pow(10.0, log_light);
        Filter all{own * main.blue, own * main.green};
        for (const Burn& burn : burns) {
            const Filter filter = filter_of(burn.grade);
            const double weight = std::pow(burn.ratio, reciprocity);
            all.blue += weight * filter.blue;
            all.green += weight * filter.green;
        }
        return all;
    }
};

/// Where a place stands among `lines`, of which all places that share a curve() have one. It is added where
/// it is the first of its own.
[[nodiscard]] std::size_t line_of(const PlaceWork&, std::vector<PlaceWork>& lines);

/// Tones of the negative, the L* wanted of each, and how much each counts (shares that add up to 1).
struct Wanted {
    std::vector<Tone> tones;
    std::vector<double> lightness;
    bool fresh = false;  ///< the print of the paper before it fogged, and so as uncertain as the paper
    /// L* of the white of the print that is wanted. Where it is told, exposures are judged as an eye does
    /// that adapts to each print's own white; where not, the L* are meant as they stand.
    std::optional<double> white = std::nullopt;
    /// Of each place that its tones know; none where the whole sheet is alike.
    std::vector<PlaceWork> places{};
    std::size_t placed = 0;  ///< so many of the last tones are wanted at densities of their own

    [[nodiscard]] PlaceWork work_at(const Tone& tone) const {
        return tone.place < places.size() ? places[tone.place] : PlaceWork{};
    }
};

/// How far a print is from what is wanted, rms over its tones.
struct PrintMiss {
    double lightness;  ///< L*, as an instrument sees it: nothing is adapted
    double seen;       ///< of Adaptation::miss, as an eye sees it
};
[[nodiscard]] PrintMiss miss_of(const Wanted&, const PrintModel&);

/// The one measure by which exposures are judged, in `start`, `plan`, `print` and `grid` alike: rms of
/// (L* + 16) a - (L*w + 16) b, with a and b from the own white of print and wanted print. Under the cube root
/// of CIE 15 another white only scales L* + 16 (above L* 8 exactly, below it by a trifle less, which no
/// search feels). Against absolute lightness a sheet that was not bleached would be exposed ever less, to
/// make up for its grey: no printer does that. What no exposure mends stays a fault, so ways of working are
/// ranked by absolute lightness, each at the exposure that an eye takes for its best.
struct Adaptation {
    double print = 1, wanted = 1;  ///< the factors a and b

    /// For a print with this L* in its unexposed border.
    [[nodiscard]] static Adaptation between(double border_lightness,
                                            const std::optional<double>& wanted_white) {
        if (!wanted_white) return {};
        constexpr double kFull = 116, kFoot = 16;
        return {kFull / (border_lightness + kFoot), kFull / (*wanted_white + kFoot)};
    }
    [[nodiscard]] double miss(double lightness, double wanted_lightness) const {
        constexpr double kFoot = 16;
        return (lightness + kFoot) * print - (wanted_lightness + kFoot) * wanted;
    }
};

}  // namespace fogproof::choose
