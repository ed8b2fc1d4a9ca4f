// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Places of a picture that are found again in another picture of the same thing, turned, of another size and
// through another tone curve: extrema of differences of Gaussians, each with what the gradients around it
// look like from its own direction. After D. G. Lowe, "Distinctive image features from scale-invariant
// keypoints", Int. J. Computer Vision 60 (2004) 91-110.
#pragma once

#include <array>
#include <vector>

#include "fogproof/rooms.hpp"
#include "registration/grey_image.hpp"

namespace fogproof::registration {

struct Keypoint {
    double x, y;   ///< in pixels of the image, its first pixel from 0 to 1
    double size;   ///< standard deviation of the Gaussian at which it was found, pixels
    double angle;  ///< of the strongest gradient around it, radians
    double strength;
    std::array<float, 128> look{};  ///< 4 x 4 fields of 8 directions; unit length, square roots taken
};

/// Keypoints of the strongest `most` places of a picture whose values run from about 0 to 1; a place whose
/// gradients have several strong directions gives one for each.
[[nodiscard]] std::vector<Keypoint> keypoints(const GreyImage&, std::size_t most);

}  // namespace fogproof::registration
