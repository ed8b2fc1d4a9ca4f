// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/even_ground.hpp"

#include <algorithm>
#include <cmath>

#include "reading/light_density.hpp"
#include "registration/seen_frame.hpp"

namespace fogproof::reading {
namespace {

// Squares along the frame's longer side, and the fewest pixels that one must have.
constexpr int kAlong = 180, kSquarePixels = 4;
// Part of the frame that is left out beside the edge of what is shown: its shadow, its taper.
constexpr double kRim = 0.012;
// A square of which so much is clipped says nothing.
constexpr double kMostClippedSquare = 0.02;

struct Sums {
    double light = 0, clipped = 0, transmittance = 0;
    double density = 0, squared = 0, sharp = 0, sharp_squared = 0;
    int count = 0;
    bool is_seen = true;

    [[nodiscard]] Unevenness unevenness() const {
        const auto spread = [&](double sum, double squares) {
            return std::sqrt(std::max(0.0, squares / count - sum / count * (sum / count)));
        };
        return {spread(density, squared), spread(sharp, sharp_squared)};
    }
};

GreyImage grey(const std::vector<float>& values, int width, int height) {
    GreyImage image(width, height);
    image.values = values;
    return image;
}

// The negative as the print's scan would blur it: in light.
GreyImage transmittance(const PlacedFrame& placed) {
    GreyImage image(placed.grid.width, placed.grid.height);
    std::ranges::transform(placed.negative.density, image.values.begin(),
                           [](NegativeDensity d) { return float(std::pow(10.0, -d.value)); });
    return blurred(image, placed.blur);
}

}  // namespace

EvenGround EvenGround::within(const Unevenness& most) const {
    EvenGround ground = *this;
    std::erase_if(ground.squares,
                  [&](const EvenSquare& square) { return !square.unevenness.is_within(most); });
    return ground;
}

EvenGround even_ground(const CalibratedScan& scan, const PlacedFrame& placed) {
    const ReflectionImage& image = scan.image;
    const SeenFrame light =
                        seen_through(placed.warp, placed.grid, grey(image.light, image.width, image.height)),
                    clipped = seen_through(placed.warp, placed.grid,
                                           grey(image.clipped, image.width, image.height));
    const GreyImage negative = transmittance(placed);
    const int longer = std::max(placed.grid.width, placed.grid.height);
    EvenGround ground;
    ground.side = std::max(kSquarePixels, longer / kAlong);
    ground.columns = placed.grid.width / ground.side, ground.rows = placed.grid.height / ground.side;
    const auto sums_of = [&](int column, int row, int reach) {
        Sums sums;
        const int left = column * ground.side - reach, top = row * ground.side - reach,
                  size = ground.side + 2 * reach;
        for (int y = std::max(0, top); y < std::min(negative.height, top + size); ++y)
            for (int x = std::max(0, left); x < std::min(negative.width, left + size); ++x) {
                const auto at = std::size_t(y) * std::size_t(negative.width) + std::size_t(x);
                sums.is_seen = sums.is_seen && light.inside[at];
                const double through = double(negative.values[at]), density = density_of_light(through),
                             sharp = placed.negative.density[at].value;
                sums.light += double(light.value.values[at]),
                    sums.clipped += double(clipped.value.values[at]);
                sums.transmittance += through, sums.density += density, sums.squared += density * density;
                sums.sharp += sharp, sums.sharp_squared += sharp * sharp;
                ++sums.count;
            }
        return sums;
    };
    const int rim = std::max(2, int(kRim * longer)), reach = std::max(1, int(std::lround(2 * placed.blur)));
    const FramePart& shown = placed.shown;
    for (int row = 0; row < ground.rows; ++row)
        for (int column = 0; column < ground.columns; ++column) {
            const int left = column * ground.side, top = row * ground.side;
            if (left < shown.left + rim || top < shown.top + rim || left + ground.side > shown.right - rim ||
                top + ground.side > shown.bottom - rim)
                continue;
            ++ground.all;
            const Sums around = sums_of(column, row, reach);
            const Unevenness uneven = around.unevenness();
            if (!around.is_seen || !(uneven.is_within(kEvenGround) || uneven.is_within(kNearlyEvenGround)))
                continue;
            const Sums own = sums_of(column, row, 0);
            const double reflected = scan.scale.reflectance(own.light / own.count);
            ground.squares.push_back(
                {column, row, placed.grid.place_of(left + ground.side / 2.0, top + ground.side / 2.0),
                 density_of_light(own.transmittance / own.count), density_of_light(reflected),
                 own.clipped / own.count > kMostClippedSquare, uneven});
        }
    return ground;
}

}  // namespace fogproof::reading
