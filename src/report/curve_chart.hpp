// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Characteristic curves as a drawing (SVG 1.1), made to be read in print, black and white included.
#pragma once

#include <span>
#include <string>

#include "fogproof/rooms.hpp"
#include "report/pack_report.hpp"

namespace fogproof::report {

/// Density against exposure, a tick every stop, each curve within its 95 % band, the sheet's own white as a
/// dashed line. In seconds for an anchored pack, else in stops from the fresh paper's 0.60 point.
[[nodiscard]] std::string curves_svg(const Pack&, std::span<const LabelledCurve>);

}  // namespace fogproof::report
