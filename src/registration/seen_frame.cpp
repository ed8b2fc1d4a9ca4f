// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/seen_frame.hpp"

#include <ceres/cubic_interpolation.h>

#include <algorithm>

#include "system/threads.hpp"

namespace fogproof::registration {
namespace {

// Rows that one worker takes at a time.
constexpr int kBand = 16;

}  // namespace

SeenFrame seen_through(const FrameWarp& warp, const FrameGrid& grid, const GreyImage& scan) {
    const int width = grid.width, height = grid.height;
    SeenFrame seen{{width, height}, {width, height}, {width, height}, {}};
    seen.inside.assign(seen.value.values.size(), 0);
    const ceres::Grid2D<float> pixels(scan.values.data(), 0, scan.height, 0, scan.width);
    const ceres::BiCubicInterpolator<ceres::Grid2D<float>> between(pixels);
    const auto look_along = [&](int y) {
        for (int x = 0; x < width; ++x) {
            const ScanPlace at = warp.at(grid.place(x, y));
            if (!(at.x > 1 && at.y > 1 && at.x < scan.width - 1 && at.y < scan.height - 1)) continue;
            double value = 0, by_row = 0, by_column = 0;
            between.Evaluate(at.y - 0.5, at.x - 0.5, &value, &by_row, &by_column);
            seen.value.at(x, y) = float(value);
            seen.along_x.at(x, y) = float(by_column);
            seen.along_y.at(x, y) = float(by_row);
            seen.inside[std::size_t(y) * std::size_t(width) + std::size_t(x)] = 1;
        }
    };
    const int bands = (height + kBand - 1) / kBand;
    in_parallel(std::size_t(bands), [&](std::size_t band) {
        for (int y = int(band) * kBand; y < std::min(height, (int(band) + 1) * kBand); ++y) look_along(y);
    });
    return seen;
}

}  // namespace fogproof::registration
