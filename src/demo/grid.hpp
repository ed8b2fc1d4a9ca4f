// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A height field on a square lattice, read smoothly between its points.
#pragma once

#include <algorithm>
#include <vector>

#include "demo/jet.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::demo {

struct Grid {
    int columns = 0, rows = 0;
    double left = 0, near = 0, cell = 1;  ///< ground coordinates of the first point, metres between points
    std::vector<double> heights;

    Grid() = default;
    Grid(int columns_, int rows_, double left_, double near_, double cell_)
        : columns(columns_),
          rows(rows_),
          left(left_),
          near(near_),
          cell(cell_),
          heights(std::size_t(columns_) * std::size_t(rows_)) {}

    [[nodiscard]] std::size_t index(int i, int j) const {
        return std::size_t(std::clamp(j, 0, rows - 1)) * std::size_t(columns) +
               std::size_t(std::clamp(i, 0, columns - 1));
    }
    [[nodiscard]] double& at(int i, int j) { return heights[index(i, j)]; }
    [[nodiscard]] double at(int i, int j) const { return heights[index(i, j)]; }
    [[nodiscard]] double x(int i) const { return left + i * cell; }
    [[nodiscard]] double z(int j) const { return near + j * cell; }

    /// Quadratic B-spline through the neighbourhood of the point: height and slope are continuous.
    [[nodiscard]] Jet smooth(double x, double z) const;
};

}  // namespace fogproof::demo
