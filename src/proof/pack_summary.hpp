// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The numbers behind a pack's report, before they become words or JSON. Intervals hold 95 % of what the pack
// leaves open; densities of a treated sheet carry its scatter too.
#pragma once

#include <optional>
#include <vector>

#include "fogproof/print/working_curve.hpp"
#include "fogproof/rooms.hpp"
#include "pack/worked_pack.hpp"

namespace fogproof::proof {

/// The unexposed sheet after some treatment: the whitest white that treatment can give.
struct White {
    Interval density;  ///< visual
    Lab lab;           ///< of the likeliest density
};

struct RestrainedWhite {
    double restrainer_ml_l;
    White white;
    Interval stops_lost;  ///< of the fog-free speed point
};

struct BleachedWhite {
    double clearing_percent;
    Interval seconds;  ///< in the pack's bath
    White white;
};

struct GradeRanges {
    double grade;
    std::optional<Interval> fresh, fogged, cleared;  ///< ISO R without fog, as the pack is, bleached clear
};

struct PackSummary {
    White fixed_only, blank;
    Interval black;
    std::optional<Interval>
        black_cleared;  ///< what the clearing dose leaves of it; none on a pack without fog
    std::vector<RestrainedWhite> restrained;
    std::vector<BleachedWhite> bleached;  ///< empty on a pack without fog
    std::vector<GradeRanges> grades;
    /// At the anchor, through what lay in the carrier then: for 0.60 above white, without fog.
    Interval speed_s;
    std::optional<int> iso_speed;  ///< P, where the illuminance of the anchor is known
};

[[nodiscard]] PackSummary pack_summary(const WorkedPacks&);

}  // namespace fogproof::proof
