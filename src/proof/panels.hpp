// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What one cell of a grid shows: a print as it is likely to come out, or several states of it side by side.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "base/interpolation.hpp"
#include "fogproof/rooms.hpp"
#include "fogproof/sheet/colour.hpp"
#include "proof/worked_grid.hpp"
#include "table/local_table.hpp"

namespace fogproof::proof {

/// A change of L* over the tones of the negative, and of the unexposed border.
struct LightnessShift {
    MonotoneCurve by_density;
    double border = 0;
    double factor = 1;        ///< on both
    double darkest = 0;       ///< L* that the paper cannot pass
    Lab lightest{100, 0, 0};  ///< the same; tones that come near it take its tint
};

/// One way to see a print: as it is likely to come out, or shifted.
struct Panel {
    PrintModel print;
    std::optional<LightnessShift> shift = std::nullopt;
    std::shared_ptr<const LocalTable> local{};  ///< where the print has local work
};

/// The panels of one proof, left to right.
[[nodiscard]] std::vector<Panel> panels(const Printing&, const Proof&, const GridRequest&);
/// The steps of the same print before anything is bleached.
[[nodiscard]] PrintSteps as_developed(PrintSteps);
/// The print before its bleach, where it has one, and after it.
[[nodiscard]] std::vector<Panel> before_and_after(const Printing&, const PrintSteps&,
                                                  std::optional<BathLayer> bath = std::nullopt);

}  // namespace fogproof::proof
