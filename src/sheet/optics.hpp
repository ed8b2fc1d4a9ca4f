// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Light in and out of a gelatin layer in optical contact with a white base.
// Assumes: flat surface, unpolarised light, Lambertian base, a layer that absorbs but does not scatter.
#pragma once

#include "fogproof/rooms.hpp"

namespace fogproof::sheet {

/// Refractive index of gelatin as Williams and Clapper (1953) took it.
inline constexpr double kGelatinIndex = 1.53;

/// Fresnel reflectance of unpolarised light going from index n1 to n2 at an angle in radians; 1 past the
/// critical angle.
[[nodiscard]] double fresnel(double n1, double n2, double angle);
/// I(t) = 2 * integral r(a) t^(2 sec a) sin a cos a da for a one-pass density, by direct quadrature (slow,
/// exact). For a clear layer the share of diffuse light inside that the surface sends back.
[[nodiscard]] double internal_return(double layer_density, double index = kGelatinIndex);

/// Williams and Clapper, J. Opt. Soc. Am. 43, 595 (1953), 45/0, for the index of gelatin:
///   R = T(0) T(45) / n^2 * rho t^(1 + sec b) / (1 - rho I(t)),  sin b = sin 45 / n.
/// Reflectance factor from base reflectance rho and one-pass layer density, without first-surface light.
/// I(t) comes from a table of the integral; its error in R is below 1e-8. Layer density from 0 up.
[[nodiscard]] double williams_clapper(double base_reflectance, double layer_density);
/// The base reflectance that shows the given reflectance factor through a clear layer.
[[nodiscard]] double base_behind_clear_layer(double reflectance_factor);

}  // namespace fogproof::sheet
