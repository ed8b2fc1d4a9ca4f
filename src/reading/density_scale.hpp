// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The scale of densities of one scan through its patches of known density, and what they leave open.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/flatbed_doubt.hpp"
#include "reading/strip_measure.hpp"

namespace fogproof::reading {

/// A patch: its light on the scan, the density that it has, and the standard deviation of that.
struct Reference {
    double light, density, doubt;
    std::string what;  ///< for messages
};

struct DensityScale {
    DensityOfLight of_light;
    FlatbedDoubt doubt;
    std::vector<std::string> notes;
    std::vector<std::string> warnings{};
};
/// Least squares over gain and stray light, which is little as long as no dark patch tells of it. Without
/// references the scan's full scale is density 0. Throws Error(Fault::data), `place` in front, where a
/// denser patch is the lighter one.
[[nodiscard]] DensityScale density_scale(std::span<const Reference>, const std::string& place);

}  // namespace fogproof::reading
