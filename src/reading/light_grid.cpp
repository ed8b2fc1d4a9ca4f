// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/light_grid.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fogproof::reading {

LightGrid LightGrid::over(int columns, int rows, int along) {
    LightGrid grid;
    grid.pitch = std::max(columns, rows) / double(along);
    grid.columns = std::max(2, int(std::ceil(columns / grid.pitch)) + 1);
    grid.rows = std::max(2, int(std::ceil(rows / grid.pitch)) + 1);
    grid.light.assign(std::size_t(grid.columns) * std::size_t(grid.rows), 0.0);
    return grid;
}

LightGrid::Between LightGrid::between(double column, double row) const {
    const double x = std::clamp(column / pitch, 0.0, columns - 1.0),
                 y = std::clamp(row / pitch, 0.0, rows - 1.0);
    const int left = std::min(int(x), columns - 2), top = std::min(int(y), rows - 2);
    const double right = x - left, down = y - top;
    const int first = top * columns + left;
    return {{first, first + 1, first + columns, first + columns + 1},
            {(1 - right) * (1 - down), right * (1 - down), (1 - right) * down, right * down}};
}

double LightGrid::at(double column, double row) const {
    const Between near = between(column, row);
    double sum = 0;
    for (std::size_t i = 0; i < 4; ++i) sum += near.weight[i] * light[std::size_t(near.node[i])];
    return sum;
}

void add_springs(const LightGrid& grid, const LightPrices& prices,
                 const std::function<void(int, int, double)>& add_normal,
                 const std::function<void(int, double)>& add_right) {
    const auto strength = [&prices](double step) { return 1 / (prices.small * prices.small + step * step); };
    for (int y = 0; y < grid.rows; ++y)
        for (int x = 0; x < grid.columns; ++x) {
            const int here = y * grid.columns + x;
            const double light = grid.light[std::size_t(here)], own = prices.light * strength(light);
            add_normal(here, here, own);
            add_right(here, -own * light);
            for (const auto& [is_there, beside] :
                 {std::pair{x + 1 < grid.columns, here + 1}, {y + 1 < grid.rows, here + grid.columns}}) {
                if (!is_there) continue;
                const double step = light - grid.light[std::size_t(beside)],
                             spring = prices.change * strength(step);
                add_normal(here, here, spring), add_normal(beside, beside, spring);
                add_normal(here, beside, -spring), add_normal(beside, here, -spring);
                add_right(here, -spring * step), add_right(beside, spring * step);
            }
        }
}

}  // namespace fogproof::reading
