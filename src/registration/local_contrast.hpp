// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A picture whose detail is equally strong everywhere, so that what a paper's toe, its shoulder or a burn has
// flattened can still be recognised.
#pragma once

#include "fogproof/rooms.hpp"
#include "registration/grey_image.hpp"

namespace fogproof::registration {

/// Each pixel against the mean around it, in units of the contrast around it, times 0.1. Around: a Gaussian
/// of `reach` pixels, standard deviation. Noise far below kFaintContrast stays faint.
[[nodiscard]] GreyImage with_even_contrast(const GreyImage&, double reach);
/// Standard deviation, in values of the picture, below which contrast is not raised in full. Judgement.
inline constexpr float kFaintContrast = 0.005f;

}  // namespace fogproof::registration
