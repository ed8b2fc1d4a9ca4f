// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A strip seen along its length: density against u, and where it changes by steps.
#pragma once

#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/turned_rectangle.hpp"
#include "scan/reflection_image.hpp"

namespace fogproof::reading {

/// Density of slices one pixel long, from u0 on.
struct Profile {
    double from = 0;
    std::vector<double> density;
};
/// Every slice at the mean of its light between v0 and v1, its brightest and darkest fifth (dust) left aside.
/// Slices outside the image take their neighbour's density.
[[nodiscard]] Profile profile(const ReflectionImage&, const StripPlace&, double u0, double u1, double v0,
                              double v1);

struct Edge {
    double u;
    double rise;  ///< density after it less density before it
};
/// Edges at least `reach` apart, each measured between the means of `reach` pixels before and after.
[[nodiscard]] std::vector<Edge> edges(const Profile&, double reach);

/// The place turned by at most `degrees` so that the edges across it are sharpest.
[[nodiscard]] StripPlace straightened(const ReflectionImage&, const StripPlace&, double degrees);
/// How much of the density's change is along the place and across it: the sum of squared changes.
[[nodiscard]] double change_along(const ReflectionImage&, const StripPlace&);

/// The part [v0, v1] of the place's width in which the edges are seen; paper beside the steps is not.
[[nodiscard]] std::pair<double, double> width_with_edges(const ReflectionImage&, const StripPlace&,
                                                         std::span<const Edge>, double reach);
/// The v between v0 and v1, not near either, at which the strip's two halves part.
[[nodiscard]] double parting_line(const ReflectionImage&, const StripPlace&, double u0, double u1, double v0,
                                  double v1);

}  // namespace fogproof::reading
