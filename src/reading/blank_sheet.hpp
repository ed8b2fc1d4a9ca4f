// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A whole sheet developed without exposure, as it lies on a flatbed: how its fog grows towards its edges.
#pragma once

#include <string>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "pixels/level_grid.hpp"
#include "reading/calibrated_scan.hpp"

namespace fogproof::reading {

struct BlankSheet {
    LevelGrid map;            ///< of the sheet as it lay, nil where it is fogged as in its middle
    double middle = 0;        ///< density as the scan has it
    double edge_density = 0;  ///< over the pack's blank, where the map is full
    int piece = 0;            ///< of the scan
    std::vector<std::string> notes{};
};

/// The largest piece of the scan of which no density is told. Densities become shares of the pack's grains;
/// of these only what the edges have more than the middle counts, so that a scan with a poor scale, or a
/// development a little longer than the pack's own, still gives the map. Throws Error(Fault::data) where no
/// sheet is seen or no edge is more fogged than the middle.
[[nodiscard]] BlankSheet blank_sheet(const CalibratedScan&, const Pack&, const std::string& place);

/// The pack with what was read: measured, with its doubt.
[[nodiscard]] Pack with_edge_map(Pack, const BlankSheet&, const std::string& map);

}  // namespace fogproof::reading
