// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The columns of a readings file that hold numbers, once: name, unit, range and where the number lives.
// Ranges are what a darkroom can do, wide enough for odd ones; they are judgement.
#pragma once

#include <array>
#include <optional>
#include <span>

#include "fogproof/calibrate/readings.hpp"

namespace fogproof {

inline constexpr const char* kStripColumn = "strip";

struct ReadingColumn {
    const char *name, *unit;
    double minimum, maximum;
    bool required;
    void (*set)(Reading&, double);
    std::optional<double> (*get)(const Reading&);
};

[[nodiscard]] inline std::span<const ReadingColumn> reading_columns() {
#define FOGPROOF_CELL(member)                                       \
    [](Reading& reading, double value) { reading.member = value; }, \
        [](const Reading& reading) -> std::optional<double> { return reading.member; }
    static constexpr std::array kColumns{
        ReadingColumn{"wedge_density", "D", -0.1, 6, false, FOGPROOF_CELL(wedge_density)},
        ReadingColumn{"exposure_s", "s", 0, 36000, false, FOGPROOF_CELL(exposure_s)},
        ReadingColumn{"filter", "", -1, 6, false, FOGPROOF_CELL(filter)},
        ReadingColumn{"restrainer_ml_l", "ml/L", 0, 500, false, FOGPROOF_CELL(restrainer_ml_l)},
        ReadingColumn{"develop_s", "s", 0, 1800, false, FOGPROOF_CELL(develop_s)},
        ReadingColumn{"bleach_s", "s", 0, 7200, false, FOGPROOF_CELL(bleach_s)},
        ReadingColumn{"bleach_parts", "parts", 0, 1000, false, FOGPROOF_CELL(bleach_parts)},
        ReadingColumn{"redevelop_s", "s", 0, 1800, false, FOGPROOF_CELL(redevelop_s)},
        ReadingColumn{"density", "D", -0.05, 4, true, FOGPROOF_CELL(density)},
    };
#undef FOGPROOF_CELL
    return kColumns;
}

}  // namespace fogproof
