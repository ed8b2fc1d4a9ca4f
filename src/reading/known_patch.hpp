// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Places in a scan whose density is known: by a densitometer, or because everybody's are alike.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "base/region.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::reading {

/// The fixed-only slip, a patch of a grey scale, a grey card.
struct KnownPatch {
    Region region{};     ///< in pixels of the scan; counts for nothing where a piece is named
    double density = 0;  ///< visual reflection density
    double doubt = 0;    ///< its standard deviation; 0: as told
    int piece = 0;       ///< number of the piece that it is; 0: the region
    std::string what{};  ///< "fixed"; empty where a density was told
};

/// What needs no densitometer.
struct UsualPatch {
    const char* word;
    double density, doubt;
    const char* meaning;
};
[[nodiscard]] std::span<const UsualPatch> usual_patches();

/// "0.09", "fixed", "grey-card", "fresh-white" as the density of a patch; nothing for anything else.
[[nodiscard]] std::optional<KnownPatch> known_density_in(std::string_view text);
/// "a density from 0 to 4, fixed, ..."
[[nodiscard]] std::string known_densities_allowed();
/// "0.09", or "fixed 0.09".
[[nodiscard]] std::string words_of(const KnownPatch&);

}  // namespace fogproof::reading
