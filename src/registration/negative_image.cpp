// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/negative_image.hpp"

#include <algorithm>

namespace fogproof::registration {

GreyImage densities(const SmallNegative& negative) {
    GreyImage image(negative.width, negative.height);
    std::ranges::transform(negative.density, image.values.begin(),
                           [](NegativeDensity density) { return float(density.value); });
    return image;
}

}  // namespace fogproof::registration
