// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The border of a print, which the easel's blades kept from the light: fog that was developed and bleached
// with the picture.
#pragma once

#include <optional>

#include "fogproof/rooms.hpp"
#include "reading/calibrated_scan.hpp"
#include "registration/placing.hpp"

namespace fogproof::reading {

/// Density of an even border on at least two sides of the picture that ends on the scan, in a step to the
/// lid; nothing where there is none, or where it cannot be told from the lid. `lightest`: density of the
/// picture's lightest tone, than which unexposed paper is no darker.
[[nodiscard]] std::optional<double> border_density(const CalibratedScan&, const PlacedFrame&,
                                                   double lightest);

}  // namespace fogproof::reading
