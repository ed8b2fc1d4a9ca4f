// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// By how much the detail of a print rises with the film's, tone for tone of the print. A tone curve says so,
// too, but not where the print was burnt or dodged: there a tone of the negative has another tone on the
// print. Other places of the same tone on the print have the same slope, wherever they were burnt.
#pragma once

#include <optional>
#include <vector>

namespace fogproof::registration {

/// Of one place of a print.
struct GainSeen {
    double tone = 0;      ///< mean lightness, 0 to 1
    double gain = 0;      ///< lightness per density, of fine detail
    double variance = 0;  ///< of that gain, by what the place leaves unexplained; more than 0
};

class ToneGain {
  public:
    /// Of places that show the picture's detail rather than grain. Nothing of fewer than 20, nor where detail
    /// does not get lighter with density in the median.
    [[nodiscard]] static std::optional<ToneGain> of(std::vector<GainSeen> places);

    /// Lightness per density, more than 0: mean of the places whose tone is near, or of the nearest there
    /// are.
    [[nodiscard]] double at(double tone) const;

  private:
    ToneGain(std::vector<GainSeen> places, double least);
    std::vector<GainSeen> places_;  ///< by tone
    double least_;
};

}  // namespace fogproof::registration
