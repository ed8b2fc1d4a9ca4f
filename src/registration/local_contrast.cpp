// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/local_contrast.hpp"

#include <cmath>

namespace fogproof::registration {

GreyImage with_even_contrast(const GreyImage& image, double reach) {
    constexpr float kContrast = 0.1f;
    GreyImage detail = blurred(image, reach);
    for (std::size_t i = 0; i < detail.values.size(); ++i)
        detail.values[i] = image.values[i] - detail.values[i];
    GreyImage squared = detail;
    for (float& value : squared.values) value *= value;
    squared = blurred(squared, reach);
    for (std::size_t i = 0; i < detail.values.size(); ++i)
        detail.values[i] *= kContrast / std::sqrt(squared.values[i] + kFaintContrast * kFaintContrast);
    return detail;
}

}  // namespace fogproof::registration
