// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The columns of a readings file beside the strip's name, once: name, unit, meaning, range and where the cell
// lives. Ranges are what a darkroom can do, wide enough for odd ones; they are judgement.
#pragma once

#include <array>
#include <optional>
#include <span>

#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"
#include "pack/treatment_limits.hpp"

namespace fogproof::pack {

inline constexpr const char* kStripColumn = "strip";
inline constexpr const char* kStripMeaning =
    "your name for the piece of paper; halves of one sheet are NAME-before and NAME-bleached";
// Far more than a lifetime of strips.
inline constexpr std::size_t kLargestReadingsFile = 8u << 20, kMostReadings = 20000;
inline constexpr const char* kReadingsWanted = "readings as CSV; fogproof read takes them off a scan";

struct ReadingColumn {
    const char *name, *unit, *meaning;  ///< meaning: words for whoever fills in the file
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
        ReadingColumn{
            "wedge_density", "D",
            "what lay over the patch: the density of the wedge's step, or of the negative; empty is nothing",
            -0.1, 6, false, FOGPROOF_CELL(wedge_density)},
        ReadingColumn{"exposure_s", "s",
                      "exposure; 0 is unexposed, as is an empty cell where nothing lay over the patch", 0,
                      36000, false, FOGPROOF_CELL(exposure_s)},
        ReadingColumn{"filter", "", "contrast filter, by its grade", -1, 6, false, FOGPROOF_CELL(filter)},
        ReadingColumn{"restrainer_ml_l", "ml/L", "restrainer in the developer", kRestrainerLimits.minimum,
                      kRestrainerLimits.maximum, false, FOGPROOF_CELL(restrainer_ml_l)},
        ReadingColumn{"develop_s", "s", "development; 0 is only fixed", kDevelopmentLimits.minimum,
                      kDevelopmentLimits.maximum, false, FOGPROOF_CELL(develop_s)},
        ReadingColumn{"bleach_s", "s", "time in the bleach; empty is none", kBleachTimeLimits.minimum,
                      kBleachTimeLimits.maximum, false, FOGPROOF_CELL(bleach_s)},
        ReadingColumn{"bleach_parts", "parts", "the N of a bath of 1+N", kBleachPartsLimits.minimum,
                      kBleachPartsLimits.maximum, false, FOGPROOF_CELL(bleach_parts)},
        ReadingColumn{"redevelop_s", "s", "redevelopment after the bleach; empty is none",
                      kRedevelopmentLimits.minimum, kRedevelopmentLimits.maximum, false,
                      FOGPROOF_CELL(redevelop_s)},
        ReadingColumn{"density", "D", "the density that was read on the patch", -0.05, 4, true,
                      FOGPROOF_CELL(density)},
        ReadingColumn{"density_error", "D", "standard deviation of one reading by itself", 0, 1, false,
                      FOGPROOF_CELL(density_error), nullptr, false},
        ReadingColumn{"common_error", "D",
                      "standard deviation of an error that all readings of the instrument share", 0, 1, false,
                      FOGPROOF_CELL(common_error), nullptr, false},
        ReadingColumn{
            "dark_error", "D",
            "standard deviation, at this density, of a second shared error that grows with the density", 0, 2,
            false, FOGPROOF_CELL(dark_error), nullptr, false},
        ReadingColumn{"instrument", "", "its name; readings with the same name share both errors", 0, 0,
                      false, nullptr, [](const Reading&) { return std::optional<double>(); },
                      &Reading::instrument, false},
        ReadingColumn{"carrier_density", "D",
                      "the film's base + fog in the carrier; 0 is an empty carrier, an empty cell as at the "
                      "pack's anchor",
                      0, 2, false, FOGPROOF_CELL(carrier_density), nullptr, false},
        ReadingColumn{"callier", "",
                      "Callier factor in wedge_density; empty for a wedge that lay on the paper", 1, 2, false,
                      FOGPROOF_CELL(callier), nullptr, false},
    };
#undef FOGPROOF_CELL
    return kColumns;
}

/// True where a row says something in a column that an empty cell would not.
[[nodiscard]] inline bool fills(const Reading& reading, const ReadingColumn& column) {
    return column.text ? !(reading.*column.text).empty() : column.get(reading) != column.get(Reading{});
}

}  // namespace fogproof::pack
