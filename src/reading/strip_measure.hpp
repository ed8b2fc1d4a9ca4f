// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One place in the scan: does it hold steps, where are they, and what do they read?
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/patch_light.hpp"
#include "reading/step_pitch.hpp"

namespace fogproof::reading {

/// Light to density, by patches of known density.
struct DensityOfLight {
    double gain = 1, stray = 0;  ///< reflectance = gain * (light - stray)
    [[nodiscard]] double reflectance(double light) const { return gain * (light - stray); }
};

/// Where the steps of a strip lie.
struct StripLayout {
    StripPlace place;
    Bounds bounds;
    double v0, v1;  ///< the width that shows steps
    bool darkens;   ///< density rises with u
};

struct PlaceRequest {
    std::optional<int> steps;
    std::optional<double> lid;  ///< density of the lid, in the image's light; nothing when none is seen
    double blur = 1;            ///< how coarsely the place is known, in pixels
    double turn = 1;            ///< degrees by which its direction may be off
};

/// Either the layout, or why there is none. `is_plain`: a patch without steps rather than a strip gone wrong.
struct LayoutFault {
    std::string found, allowed;
    bool is_plain = false;
};
[[nodiscard]] std::variant<StripLayout, LayoutFault> strip_layout(const ReflectionImage&, const StripPlace&,
                                                                  const PlaceRequest&);

/// What is read of one step, or why it cannot be.
struct MeasuredStep {
    double density = 0, scatter = 0;
    std::size_t count = 0;
    std::array<std::pair<double, double>, 4> corners{};
    std::string fault{};
};
/// Steps between v0 and v1 from dark to light, the edges' surroundings left out.
[[nodiscard]] std::vector<MeasuredStep> measured_steps(const ReflectionImage&, const StripLayout&, double v0,
                                                       double v1, const DensityOfLight&);

/// Both halves of the strip's width are even in most steps, and one of them is the denser all along.
[[nodiscard]] bool bleached_by_halves(const ReflectionImage&, const StripLayout&, const DensityOfLight&);

}  // namespace fogproof::reading
