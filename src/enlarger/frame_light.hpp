// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How much of the enlarger's light each tone of one frame lets through, whatever the exposure: what a search
// over exposures asks of a tone.
#pragma once

#include "fogproof/enlarger/enlarger.hpp"
#include "fogproof/rooms.hpp"
#include "negative/tones.hpp"

namespace fogproof::enlarger {

class FrameLight {
  public:
    FrameLight(const Tones& frame, const Enlarger&);
    /// Mean of 10^(-Q Dn) over the frame, which flare spreads.
    [[nodiscard]] double mean_transmitted() const { return mean_transmitted_; }
    /// log10 of the light over that through clear film without flare.
    [[nodiscard]] double log_light(NegativeDensity) const;
    [[nodiscard]] double log_light(const Tone& tone) const { return log_light(tone.density); }

  private:
    Enlarger enlarger_;
    double mean_transmitted_;
};

}  // namespace fogproof::enlarger
