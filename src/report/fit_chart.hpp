// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a fit did, as a drawing (SVG 1.1): every strip's readings on its curve in its 95 % band, and below how
// far the curve misses each reading.
#pragma once

#include <string>

#include "fogproof/fit/pack_fit.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// Strips of a wedge, up to eight; strips of one exposure before and after the bleach stand side by side as
/// pairs of one ink, the bleached one dashed and its readings hollow.
[[nodiscard]] std::string fit_svg(const PackFit&);

}  // namespace fogproof::report
