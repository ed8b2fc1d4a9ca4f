// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The light of one even patch, dust left aside.
#pragma once

#include <cstddef>

#include "fogproof/rooms.hpp"
#include "reading/turned_rectangle.hpp"
#include "scan/reflection_image.hpp"

namespace fogproof::reading {

struct PatchLight {
    double mean = 0;        ///< of the pixels within 3.5 robust standard deviations of the median
    double spread = 0;      ///< their standard deviation
    std::size_t count = 0;  ///< how many they are
    double unusual = 0;     ///< share of the patch that does not count
    double clipped = 0;     ///< share of the patch at the first or last code
    double uneven = 0;      ///< density, between the darkest and the lightest ninth of the patch
};
/// The pixels whose middle lies in [u0, u1] x [v0, v1] of the place and in the image.
[[nodiscard]] PatchLight patch_light(const ReflectionImage&, const StripPlace&, double u0, double u1,
                                     double v0, double v1);

}  // namespace fogproof::reading
