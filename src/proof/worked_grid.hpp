// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A proof grid worked out: every recipe of two axes with its numbers.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/remarks.hpp"
#include "choose/printing.hpp"
#include "fogproof/rooms.hpp"
#include "print/axis.hpp"

namespace fogproof::proof {

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
    Remarks remarks;  ///< on the scan and the recipe, repeated on the sheet: warnings under its title, notes
                      ///< in the legend
    /// What starting exposures are for; nothing: the fresh print.
    std::optional<Wanted> wanted = std::nullopt;
    /// Index of the print that is told as the best, row by row. It has the mark then, not the closest to
    /// fresh paper.
    std::optional<std::size_t> recommended = std::nullopt;
};

struct WorkedGrid {
    GridRequest request;
    std::vector<Proof> proofs;  ///< row by row
    std::size_t closest;        ///< index of the proof closest to the fresh print, among those exposed best
    /// Index of the print with the mark.
    [[nodiscard]] std::size_t marked() const { return request.recommended.value_or(closest); }
};

/// Axes used when none are asked for: grade across (whole grades of the pack, at most four from the middle;
/// for graded paper exposure in half stops) and bleach depth down (in percent of clearing; in seconds where
/// one of the columns has no fog to clear). What is held is no axis: then exposure, restrainer or development
/// is; where all are held, an axis of one value.
[[nodiscard]] Axis usual_across(const Printing&, const Recipe& base, std::span<const AxisQuantity> held = {});
[[nodiscard]] Axis usual_down(const Printing&, const Recipe& base, const Axis& across,
                              std::span<const AxisQuantity> held = {});

[[nodiscard]] WorkedGrid worked_grid(const Printing&, GridRequest);

}  // namespace fogproof::proof
