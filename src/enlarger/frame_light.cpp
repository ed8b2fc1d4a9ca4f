// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "enlarger/frame_light.hpp"

#include <cmath>

namespace fogproof::enlarger {

FrameLight::FrameLight(const Tones& frame, const Enlarger& enlarger)
    : enlarger_(enlarger), mean_transmitted_(frame.mean_transmitted(enlarger.callier)) {}

double FrameLight::log_light(NegativeDensity density) const {
    return std::log10(transmitted(density, mean_transmitted_, enlarger_));
}

}  // namespace fogproof::enlarger
