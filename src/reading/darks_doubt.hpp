// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the darkest places of a scan say of the way in which its codes were made.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "fogproof/rooms.hpp"
#include "reading/even_ground.hpp"
#include "reading/scan_pieces.hpp"
#include "reading/strip_measure.hpp"
#include "reading/strip_reading.hpp"

namespace fogproof::reading {

/// A warning where pieces on a white lid are darker than paper gets: scanner programs that set levels by
/// themselves make the darkest place of a scan black.
[[nodiscard]] std::optional<std::string> doubt_of_darks(const ReflectionImage&, const ScanPieces&,
                                                        const DensityOfLight&);

/// The same warning of the darkest step that was read, whatever the strips lie on.
[[nodiscard]] std::optional<std::string> doubt_of_darks(std::span<const StripReading>);

/// The same warning of a print's even ground, whatever lies around the print.
[[nodiscard]] std::optional<std::string> doubt_of_darks(const EvenGround&);

/// A note where the ground around the pieces is darker than any card: an open lid, or altered levels.
[[nodiscard]] std::optional<std::string> doubt_of_dark_ground(const ScanPieces&);

}  // namespace fogproof::reading
