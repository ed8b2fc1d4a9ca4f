// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where ISO 6846 reads a curve, told as shares of developable grains: on paper without fog, developed
// nominally, print density depends on nothing else, so speed and range follow without drawing the curve.
#pragma once

#include "fogproof/emulsion/emulsion.hpp"
#include "fogproof/rooms.hpp"
#include "fogproof/sheet/sheet.hpp"

namespace fogproof::pack {

/// Shares at T (0.04 above white), M (0.60 above) and S (0.90 of the net maximum).
struct ReferenceShares {
    double toe, speed, shoulder;
};

/// Share at which a sheet with this much silver at most shows the reference densities.
[[nodiscard]] ReferenceShares reference_shares(const Sheet&, LayerDensity all_developed);

/// ISO range of one population seen by one colour of light: 100 spread (z(shoulder) - z(toe)).
[[nodiscard]] double iso_range_of_spread(const Grains&, const ReferenceShares&);

}  // namespace fogproof::pack
