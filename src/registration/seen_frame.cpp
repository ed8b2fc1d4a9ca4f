// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/seen_frame.hpp"

#include <Eigen/Core>
#include <algorithm>

#include "registration/row_bands.hpp"

namespace fogproof::registration {
namespace {

constexpr int kNeighbours = 4;
using Neighbours = Eigen::Array4f;

Neighbours row_of_four(const float* first) {
    return Eigen::Map<const Neighbours>(first);
}

// Of four neighbours in a row, between the middle two (Catmull and Rom 1974): what each counts for the value
// there, and for its slope. Cubics whose four coefficients are worked out at once.
struct Weights {
    Neighbours value, slope;

    explicit Weights(float t) {
        static constexpr float kConstant[] = {0, 1, 0, 0}, kLinear[] = {-0.5f, 0, 0.5f, 0},
                               kSquare[] = {1, -2.5f, 2, -0.5f}, kCube[] = {-0.5f, 1.5f, -1.5f, 0.5f};
        const Neighbours linear = row_of_four(kLinear), square = row_of_four(kSquare),
                         cube = row_of_four(kCube);
        value = row_of_four(kConstant) + t * (linear + t * (square + t * cube));
        slope = linear + t * (2 * square + 3 * t * cube);
    }
};

// Beyond the rim its pixels go on.
Neighbours row_at_rim(const GreyImage& image, int left, int y) {
    Neighbours there;
    for (int i = 0; i < kNeighbours; ++i)
        there[i] = image.at(std::clamp(left + i, 0, image.width - 1), std::clamp(y, 0, image.height - 1));
    return there;
}

struct Look {
    float value, along_x, along_y;
};

// At a place in an image's pixels, a middle of one of them at a whole number. Ceres' interpolator says the
// same, as its test shows, but takes a second of the six in which two scans of 24 megapixels are read.
Look looked_up(const GreyImage& image, double x, double y) {
    const int left = int(x), top = int(y), first = left - 1, above = top - 1;
    const Weights across(float(x - left)), down(float(y - top));
    Neighbours row[kNeighbours];
    if (first >= 0 && above >= 0 && first + kNeighbours <= image.width &&
        above + kNeighbours <= image.height) {
        const auto width = std::size_t(image.width);
        const float* from = &image.values[std::size_t(above) * width + std::size_t(first)];
        for (int i = 0; i < kNeighbours; ++i, from += width) row[i] = row_of_four(from);
    } else {
        for (int i = 0; i < kNeighbours; ++i) row[i] = row_at_rim(image, first, above + i);
    }
    const auto summed = [&](const Neighbours& by) -> Neighbours {
        return (by[0] * row[0] + by[1] * row[1]) + (by[2] * row[2] + by[3] * row[3]);
    };
    const Neighbours value = summed(down.value), slope = summed(down.slope);
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
