// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The numbers behind a pack's report, before they become words or JSON.
#pragma once

#include <optional>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/print/working_curve.hpp"

namespace fogproof {

/// The unexposed sheet after some treatment: the whitest white that treatment can give.
struct White {
    PrintDensity density;
    Lab lab;
};

struct RestrainedWhite {
    double restrainer_ml_l;
    White white;
    double stops_lost;  ///< of the fog-free speed point
};

struct BleachedWhite {
    double clearing_percent;
    Interval seconds;  ///< in the pack's bath
    White white;
};

struct GradeRanges {
    double grade;
    std::optional<double> fresh, fogged, cleared;  ///< ISO R without fog, as the pack is, bleached clear
};

struct PackSummary {
    White fixed_only, blank;
    PrintDensity black;
    std::vector<RestrainedWhite> restrained;
    std::vector<BleachedWhite> bleached;  ///< empty on a pack without fog
    std::vector<GradeRanges> grades;
    double speed_s;                ///< clear-film seconds for 0.60 above white, without fog
    std::optional<int> iso_speed;  ///< P, where the illuminance of the anchor is known
};

[[nodiscard]] PackSummary pack_summary(const Pack&);

}  // namespace fogproof
