// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/level_grid.hpp"

#include <algorithm>
#include <cmath>

namespace fogproof::pixels {
namespace {

constexpr float kFull = 65535;

// A place along one side among the middles of cells, and what the next cell counts.
struct Between {
    int cell;
    double next;
};

Between between_cells(double place, int cells) {
    const double at = std::clamp(place * cells - 0.5, 0.0, double(cells - 1));
    const int cell = std::min(int(at), std::max(cells - 2, 0));
    return {cell, cells == 1 ? 0 : at - cell};
}

void ramp(float* to, int count, float from, float each) {
    for (int i = 0; i < count; ++i) to[i] = from + each * float(i);
}

}  // namespace

double LevelGrid::at(double x, double y) const {
    const Between column = between_cells(x, width), row = between_cells(y, height);
    const auto along = [&](int line) {
        const std::uint16_t* const from = level.data() + std::size_t(line) * std::size_t(width) + column.cell;
        return width == 1 ? double(from[0]) : from[0] + column.next * (from[1] - from[0]);
    };
    const double upper = along(row.cell);
    return (height == 1 ? upper : upper + row.next * (along(row.cell + 1) - upper)) / double(kFull);
}

GridSize grid_size(int frame_width, int frame_height, int longest) {
    const double scale = std::min(1.0, double(longest) / std::max(frame_width, frame_height));
    return {std::max(1, int(std::lround(frame_width * scale))),
            std::max(1, int(std::lround(frame_height * scale)))};
}

double sharpest_rim(const LevelGrid& grid) {
    // Noise of a painted or read mask is no rim: levels are held against each other over a hundredth of the
    // side.
    const int apart = std::max(1, int(std::lround(0.01 * std::max(grid.width, grid.height))));
    int steepest = 0;
    for (int y = 0; y < grid.height; ++y)
        for (int x = 0; x < grid.width; ++x) {
            const std::size_t here = std::size_t(y) * std::size_t(grid.width) + std::size_t(x);
            if (x + apart < grid.width)
                steepest =
                    std::max(steepest, std::abs(grid.level[here + std::size_t(apart)] - grid.level[here]));
            if (y + apart < grid.height)
                steepest = std::max(steepest,
                                    std::abs(grid.level[here + std::size_t(apart) * std::size_t(grid.width)] -
                                             grid.level[here]));
        }
    if (steepest == 0) return 100;
    return 100.0 * apart / std::max(grid.width, grid.height) * double(kFull) / steepest;
}

Touched touched(const LevelGrid& grid) {
    Touched all;
    for (const std::uint16_t level : grid.level) {
        all.some += level > 0;
        all.full += level == 65535;
        all.mean += level / double(kFull);
    }
    const auto cells = double(grid.level.size());
    return {all.some / cells, all.full / cells, all.mean / cells};
}

LevelLine::LevelLine(const LevelGrid& grid, int line, int lines) : row_(std::size_t(grid.width)) {
    const Between row = between_cells((line + 0.5) / lines, grid.height);
    const std::uint16_t* const upper = grid.level.data() + std::size_t(row.cell) * std::size_t(grid.width);
    const std::uint16_t* const lower = grid.height == 1 ? upper : upper + grid.width;
    const auto share = float(row.next);
    for (std::size_t x = 0; x < row_.size(); ++x) {
        const float above = upper[x];
        row_[x] = (above + share * (float(lower[x]) - above)) / kFull;
    }
    empty_.reserve(row_.size() + 1);
    full_.reserve(row_.size() + 1);
    empty_.push_back(0);
    full_.push_back(0);
    for (const float level : row_) {
        empty_.push_back(empty_.back() + int(level == 0));
        full_.push_back(full_.back() + int(level == 1));
    }
}

LevelLine::Reach LevelLine::reach(int begin, int end, int width) const {
    const int cells = int(row_.size());
    const Between first = between_cells((begin + 0.5) / width, cells),
                  last = between_cells((end - 0.5) / width, cells);
    const int to = std::min(last.cell + (last.next > 0 ? 2 : 1), cells), count = to - first.cell;
    const auto from = std::size_t(first.cell), behind = std::size_t(to);
    if (empty_[behind] - empty_[from] == count) return Reach::none;
    if (full_[behind] - full_[from] == count) return Reach::full;
    return Reach::between;
}

void LevelLine::levels(int begin, int end, int width, float* to) const {
    const int cells = int(row_.size());
    if (cells == 1) {
        std::fill(to, to + (end - begin), row_.front());
        return;
    }
    // Cell by cell, along which levels go straight; before the first middle and behind the last they stay.
    const double step = double(cells) / width, pixels = double(width) / cells;
    const double first = (begin + 0.5) * step - 0.5;
    const int count = end - begin;
    int cell = int(first + 1) - 1;  // rounds down, since it is above -1
    for (int x = 0; x < count; ++cell) {
        if (cell >= cells - 1) {
            std::fill(to + x, to + count, row_.back());
            return;
        }
        const double behind = (cell + 1 - first) * pixels;
        int until = int(behind);
        until += int(until < behind);
        until = std::min(until, count);
        if (until <= x) continue;
        if (cell < 0) {
            std::fill(to + x, to + until, row_.front());
        } else {
            const float here = row_[std::size_t(cell)], slope = row_[std::size_t(cell) + 1] - here;
            ramp(to + x, until - x, here + slope * float(first + x * step - cell), slope * float(step));
        }
        x = until;
    }
}

}  // namespace fogproof::pixels
