// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A proof grid worked out: every recipe of two axes, its numbers, and the words around the pictures.
#pragma once

#include <string>
#include <vector>

#include "fogproof/base/remarks.hpp"
#include "fogproof/choose/easel.hpp"
#include "fogproof/print/axis.hpp"
#include "fogproof/render/grid.hpp"

namespace fogproof {

struct GridRequest {
    std::string negative;  ///< its name, for the title
    Recipe base;           ///< what the axes do not change
    Axis across, down;
    /// What each cell shows side by side.
    enum class Panels {
        likely,  ///< one print, as it is likely to come out
        halves,  ///< before the bleach, after it
        spread,  ///< as dark as it may come out, likely, as light as it may
    } panels = Panels::likely;
    std::optional<BathLayer> bath;
    Rendering rendering = Rendering::absolute;
    Remarks remarks;  ///< on the scan and the recipe, repeated in the legend
    /// What starting exposures are for; nothing: the fresh print.
    std::optional<Wanted> wanted = std::nullopt;
    /// Index of the print that a worksheet recommends, row by row. It has the mark then, not the closest to
    /// fresh paper.
    std::optional<std::size_t> recommended = std::nullopt;
};

struct WorkedGrid {
    GridRequest request;
    std::vector<Proof> proofs;  ///< row by row
    std::size_t closest;        ///< index of the proof closest to the fresh print
    /// Index of the print with the mark.
    [[nodiscard]] std::size_t marked() const { return request.recommended.value_or(closest); }
    GridSheet sheet;
};

/// Axes used when none are asked for: grade across (whole grades of the pack, at most four from the middle;
/// for graded paper exposure in half stops) and bleach depth down (in percent of clearing; in seconds on a
/// pack without fog).
[[nodiscard]] Axis usual_across(const Easel&);
[[nodiscard]] Axis usual_down(const Easel&, const Recipe& base);

[[nodiscard]] WorkedGrid worked_grid(const Easel&, GridRequest);
/// What goes into the picture's metadata beside the pack: common recipe, negative and axes.
[[nodiscard]] Description grid_description(const WorkedGrid&);
/// The same numbers as JSON: axes, and for each cell recipe, seconds, densities, shares without tone.
[[nodiscard]] std::string grid_json(const Easel&, const WorkedGrid&);

}  // namespace fogproof
