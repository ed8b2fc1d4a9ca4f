// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The prints of a grid while they lie in the bleach: for each way of exposing and developing, what every
// light becomes after every time in the bath, as a table small enough to stand in a page.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "proof/worked_grid.hpp"

namespace fogproof::proof {

/// A colour and the visual density that an instrument would read.
struct TrayColour {
    Lab lab;
    double density;
};

/// The lights are log10 exposures through clear film, at equal steps. The doses go up by their square roots
/// at equal steps, from none on: a print changes fastest where a bath begins. The last lies beyond the
/// longest time, for what goes between the two before it.
struct TrayWay {
    std::string words;                    ///< grade, restrainer and development
    double told_s = 0;                    ///< the first exposure, in seconds
    bool has_several_exposures = false;   ///< and others beside it
    double told_log_h = 0;                ///< log10 of it, as light counts it
    std::vector<TrayColour> colours;      ///< dose by dose, each over the lights
    std::vector<TrayColour> borders;      ///< never exposed, by dose
    std::optional<double> clears_s;       ///< where there is fog to clear
    std::optional<double> over_s;         ///< from there on a bleach takes the picture too: kMostMadeUpFor
    std::optional<double> recommended_s;  ///< time in the bleach of the print with the mark
};

struct Tray {
    static constexpr double kLightStep = 0.025;  ///< log10
    static constexpr double kExposureReach = 2;  ///< stops either side of the told exposure
    static constexpr std::size_t kDoses = 34;

    double darkest = 0, brightest = 0;  ///< log10 light of the frame over clear film's
    double first_light = 0;             ///< of every table, over the told exposure
    std::size_t lights = 0;
    double longest_s = 0;      ///< time in the bleach that the tables reach
    std::vector<double> dose;  ///< at equal steps of time from 0 to longest_s, over the greatest
    double reciprocity = 1;
    Lab fixed;                      ///< only fixed
    std::vector<TrayColour> fresh;  ///< print on fresh paper, over the frame's lights from `darkest` on
    Lab fresh_border;
    std::vector<double>
        half_band;  ///< L*, 95 %, of the print with the mark, over the frame's lights likewise
    std::vector<TrayWay> ways;
    std::size_t marked = 0;  ///< the way of the print with the mark
};

/// Of all ways in the grid; without its local work and the fog of the sheet's edges.
[[nodiscard]] Tray tray(const Printing&, const WorkedGrid&);

}  // namespace fogproof::proof
