// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The colours of the print in the bleach as its page holds them: light that adds up, on a screen.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "picture/colour_coder.hpp"
#include "proof/tray_ways.hpp"
#include "scan/trial_prints.hpp"

namespace fogproof::report {

/// Colours as the program codes them for a screen (sRGB, IEC 61966-2-1), undone to light.
class TrayScreen {
  public:
    static constexpr double kFull = 65535;  ///< white

    TrayScreen(Rendering, const Lab& paper_white);
    /// Red, green, blue and 10000 times the density of each.
    void put(std::vector<std::uint16_t>& to, std::span<const TrayColour> colours) const;
    [[nodiscard]] std::vector<double> light(const Lab&) const;

  private:
    OutputProfile profile_;
    ColourCoder coder_;
};

/// The prints of the page on which its small pixels are tried, each step of light from the tray's darkest on
/// to its brightest: the marked, the hardest and the softest way, at exposures all over the scale and doses
/// from none to the longest time.
[[nodiscard]] TrialPrints tray_trials(const Tray&, const TrayScreen&, double step, int steps);

}  // namespace fogproof::report
