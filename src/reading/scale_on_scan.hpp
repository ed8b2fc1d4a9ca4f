// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the scan itself says against its known patches: densities told ten times off, or of another piece.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "fogproof/rooms.hpp"
#include "reading/density_scale.hpp"
#include "reading/strip_measure.hpp"

namespace fogproof::reading {

/// A warning where, by the scale of the known patches, something on the scan would be lighter than anything
/// is that lies on a scanner, or the scanner's full light would be a dark grey.
[[nodiscard]] std::optional<std::string> doubt_of_known(const DensityScale&, const ReflectionImage&,
                                                        std::span<const Reference> known);

}  // namespace fogproof::reading
