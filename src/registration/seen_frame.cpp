// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/seen_frame.hpp"

#include <Eigen/Core>
#include <algorithm>

#include "registration/row_bands.hpp"

namespace fogproof::registration {
namespace {

// Of four neighbours in a row, between the middle two (Catmull and Rom 1974): what each counts for the value
// there, and for its slope.
constexpr int kNeighbours = 4;
using Neighbours = Eigen::Array4f;
struct Weights {
    Neighbours value, slope;

    explicit Weights(float t)
        : value(((2 - t) * t - 1) * t / 2, ((3 * t - 5) * t * t + 2) / 2, ((4 - 3 * t) * t + 1) * t / 2,
                (t - 1) * t * t / 2),
          slope(((4 - 3 * t) * t - 1) / 2, (9 * t - 10) * t / 2, ((8 - 9 * t) * t + 1) / 2,
                (3 * t - 2) * t / 2) {}
};

// Beyond the rim its pixels go on.
Neighbours neighbours(const GreyImage& image, int left, int y) {
    const float* row =
        &image.values[std::size_t(std::clamp(y, 0, image.height - 1)) * std::size_t(image.width)];
    if (left >= 0 && left + kNeighbours <= image.width) return Eigen::Map<const Neighbours>(row + left);
    Neighbours there;
    for (int i = 0; i < kNeighbours; ++i) there[i] = row[std::clamp(left + i, 0, image.width - 1)];
    return there;
}

struct Look {
    float value, along_x, along_y;
};

// At a place in an image's pixels, a middle of one of them at a whole number. Ceres' interpolator says the
// same, as its test shows, but takes a second of the six in which two scans of 24 megapixels are read.
Look looked_up(const GreyImage& image, double x, double y) {
    const int left = int(x), top = int(y);
    const Weights across(float(x - left)), down(float(y - top));
    Neighbours value = Neighbours::Zero(), slope = value;
    for (int i = 0; i < kNeighbours; ++i) {
        const Neighbours row = neighbours(image, left - 1, top - 1 + i);
        value += down.value[i] * row, slope += down.slope[i] * row;
    }
    return {(across.value * value).sum(), (across.slope * value).sum(), (across.value * slope).sum()};
}

}  // namespace

SeenFrame seen_through(const FrameWarp& warp, const FrameGrid& grid, const GreyImage& scan) {
    const int width = grid.width, height = grid.height;
    SeenFrame seen{{width, height}, {width, height}, {width, height}, {}};
    seen.inside.assign(seen.value.values.size(), 0);
    const double pixel = 1 / half_diagonal(width, height);
    const auto look_along = [&](int y) {
        const FramePlace first = grid.place(0, y);
        for (int x = 0; x < width; ++x) {
            const ScanPlace at = warp.at({first.u + x * pixel, first.v});
            if (!(at.x > 1 && at.y > 1 && at.x < scan.width - 1 && at.y < scan.height - 1)) continue;
            const Look look = looked_up(scan, at.x - 0.5, at.y - 0.5);
            seen.value.at(x, y) = look.value;
            seen.along_x.at(x, y) = look.along_x;
            seen.along_y.at(x, y) = look.along_y;
            seen.inside[std::size_t(y) * std::size_t(width) + std::size_t(x)] = 1;
        }
    };
    in_row_bands(height, [&](int first, int last) {
        for (int y = first; y < last; ++y) look_along(y);
    });
    return seen;
}

}  // namespace fogproof::registration
