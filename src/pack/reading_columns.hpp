// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The columns of a readings file beside the strip's name, once: name, unit, range and where the cell lives.
// Ranges are what a darkroom can do, wide enough for odd ones; they are judgement.
#pragma once

#include <array>
#include <optional>
#include <span>

#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

inline constexpr const char* kStripColumn = "strip";
// Far more than a lifetime of strips.
inline constexpr std::size_t kLargestReadingsFile = 8u << 20, kMostReadings = 20000;
inline constexpr const char* kReadingsWanted = "readings as CSV; fogproof read takes them off a scan";

struct ReadingColumn {
    const char *name, *unit;
    double minimum, maximum;
    bool required;
    void (*set)(Reading&, double);
    std::optional<double> (*get)(const Reading&);
    std::string Reading::*text = nullptr;  ///< of a column of text, which is no number
    bool usual = true;                     ///< written even where no row has a value
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
        ReadingColumn{"density_error", "D", 0, 1, false, FOGPROOF_CELL(density_error), nullptr, false},
        ReadingColumn{"common_error", "D", 0, 1, false, FOGPROOF_CELL(common_error), nullptr, false},
        ReadingColumn{"dark_error", "D", 0, 2, false, FOGPROOF_CELL(dark_error), nullptr, false},
        ReadingColumn{"instrument", "", 0, 0, false, nullptr,
                      [](const Reading&) { return std::optional<double>(); }, &Reading::instrument, false},
        ReadingColumn{"carrier_density", "D", 0, 2, false, FOGPROOF_CELL(carrier_density), nullptr, false},
        ReadingColumn{"callier", "", 1, 2, false, FOGPROOF_CELL(callier), nullptr, false},
    };
#undef FOGPROOF_CELL
    return kColumns;
}

/// True where a row says something in a column that an empty cell would not.
[[nodiscard]] inline bool fills(const Reading& reading, const ReadingColumn& column) {
    return column.text ? !(reading.*column.text).empty() : column.get(reading) != column.get(Reading{});
}

}  // namespace fogproof::pack
