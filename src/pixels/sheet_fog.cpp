// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/sheet_fog.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fogproof::pixels {

namespace {

// What two opposite edges leave untouched between them.
double untouched(double reach_mm, double before, double behind) {
    constexpr double kAtReach = 1.1630871536766743;  // erfc of it is a tenth
    if (reach_mm <= 0) return 1;
    return std::erf(kAtReach * std::max(before, 0.0) / reach_mm) *
           std::erf(kAtReach * std::max(behind, 0.0) / reach_mm);
}

std::uint16_t code_of(double level) {
    return std::uint16_t(std::lround(65535 * level));
}

}  // namespace

double edge_level(double reach_mm, double left, double top, double right, double bottom) {
    return 1 - untouched(reach_mm, left, right) * untouched(reach_mm, top, bottom);
}

SheetFog::SheetFog(const EdgeFog& edge, std::optional<LevelGrid> map, const FrameOnSheet& frame)
    : edge_(edge), map_(std::move(map)), frame_(frame) {}

double SheetFog::level(double x, double y) const {
    if (!map_) return edge_level(edge_.reach_mm, x, y, frame_.sheet_width - x, frame_.sheet_height - y);
    // Back to how the sheet lay when its map was made: against the turns.
    double u = x / frame_.sheet_width, v = y / frame_.sheet_height;
    for (int turn = 0; turn < frame_.quarter_turns; ++turn) u = std::exchange(v, 1 - u);
    return map_->at(u, v);
}

LevelGrid SheetFog::over(const SheetPart& part, GridSize size) const {
    LevelGrid grid{size.width, size.height, {}};
    grid.level.reserve(std::size_t(size.width) * std::size_t(size.height));
    const auto across = [&](int x) { return part.left + part.width * (x + 0.5) / size.width; };
    const auto down = [&](int y) { return part.top + part.height * (y + 0.5) / size.height; };
    std::vector<double> left_by_sides;  // where no map is
    for (int x = 0; x < size.width && !map_; ++x)
        left_by_sides.push_back(untouched(edge_.reach_mm, across(x), frame_.sheet_width - across(x)));
    for (int y = 0; y < size.height; ++y) {
        const double left = untouched(edge_.reach_mm, down(y), frame_.sheet_height - down(y));
        for (int x = 0; x < size.width; ++x)
            grid.level.push_back(
                code_of(map_ ? level(across(x), down(y)) : 1 - left * left_by_sides[std::size_t(x)]));
    }
    return grid;
}

}  // namespace fogproof::pixels
