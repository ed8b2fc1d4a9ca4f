// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A worked grid as it is drawn and told: headings, captions and legend around its prints; its numbers as
// JSON.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <span>
#include <string>

#include "fogproof/rooms.hpp"
#include "picture/grid.hpp"
#include "pixels/level_grid.hpp"
#include "proof/worked_grid.hpp"

namespace fogproof::report {

/// The rendering is told in the legend.
[[nodiscard]] GridSheet grid_sheet(const Printing&, const WorkedGrid&, Rendering);
/// What goes into the picture's metadata beside the pack: common recipe, negative and axes.
[[nodiscard]] Description grid_description(const Printing&, const WorkedGrid&,
                                           const std::filesystem::path& folder = {});
/// The same numbers as JSON; what the fog of the edges does, where there is some; axes, and for each cell
/// recipe, seconds, densities, shares without tone, and its local work with what each touches of the frame.
[[nodiscard]] std::string grid_json(const Printing&, const WorkedGrid&, std::span<const Touched> touched,
                                    const nlohmann::ordered_json& edge_fog);

}  // namespace fogproof::report
