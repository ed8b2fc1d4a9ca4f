// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan made small for whoever does not know yet how it will be printed. A small pixel of a print is the
// mean of what many pixels reflect, and that is no function of their mean light: an edge between snow and a
// wall stays half white, half black. So each small pixel keeps two lights and their shares that have the
// mean, the scatter and the lean of all its lights: the two-point Gauss quadrature, exact for any curve of up
// to third degree and for an edge between two tones. Pixels for which that shows on one of the trial prints
// keep finer shares, and as many lights as they need.
#pragma once

#include <cstdint>
#include <vector>

#include "choose/printing.hpp"
#include "fogproof/rooms.hpp"
#include "scan/area_means.hpp"
#include "scan/finer_lights.hpp"
#include "scan/scan.hpp"
#include "scan/trial_prints.hpp"

namespace fogproof::scan {

/// Lights are log10 over clear film's, in steps from `darkest` on.
struct LightPairs {
    static constexpr double kStep = 0.0008;  ///< log10; a third of a code of 8 bits through a hard filter
    static constexpr int kApart = 12;
    static constexpr int kShares = 32;

    PictureSize size;
    double darkest = 0;
    int steps = 0;                    ///< from the darkest to the brightest, both ends counted
    std::vector<std::uint16_t> mean;  ///< row by row
    std::vector<std::uint8_t> apart;  ///< the two lights, in kApart steps; 0 where they are one
    std::vector<std::uint8_t> share;  ///< of the brighter one, in 32ths
    FinerLights finer;                ///< of pixels that two such lights do not do for
    double worst = 0;                 ///< codes of 8 bits that a pixel is off on the trial prints, at most

    [[nodiscard]] static int steps_between(double darkest, double brightest);
};

/// One pass over the scan. Lights outside of the ends are taken for the ends. Without trial prints no pixel
/// is finer.
[[nodiscard]] LightPairs light_pairs(const Scan&, const Printing&, double darkest, double brightest,
                                     int long_side, const TrialPrints&);

}  // namespace fogproof::scan
