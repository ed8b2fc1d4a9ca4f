// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Log10 of light over a frame, linear between the nodes of a grid, and what a fit pays for its changes.
#pragma once

#include <array>
#include <functional>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::reading {

/// Places are in squares over the frame: the first runs from 0 to 1.
struct LightGrid {
    double pitch = 1;  ///< of the nodes, in squares
    int columns = 0, rows = 0;
    std::vector<double> light{};  ///< at the nodes, row by row; above 0 where more light fell

    /// Without light, over a frame of so many squares, with `along` steps on its longer side.
    static LightGrid over(int columns, int rows, int along);
    [[nodiscard]] double at(double column, double row) const;
    /// Nodes that a place lies between, and their weights.
    struct Between {
        std::array<int, 4> node;
        std::array<double, 4> weight;
    };
    [[nodiscard]] Between between(double column, double row) const;
};

/// What light costs at a node, and its change to the next; below `small` as squares, above hardly more than
/// at it, so that edges stay edges.
struct LightPrices {
    double light, change, small;
};

/// The prices as springs whose strength is that of the grid as it is: adds to the normal matrix at two nodes,
/// and to the right side at one.
void add_springs(const LightGrid&, const LightPrices&,
                 const std::function<void(int, int, double)>& add_normal,
                 const std::function<void(int, double)>& add_right);

}  // namespace fogproof::reading
