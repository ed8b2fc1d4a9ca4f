// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/turning.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fogproof::pixels {
namespace {

// Rounding must not make the sheet a pixel larger.
constexpr double kNothing = 1e-6;

Region about(PixelPlace middle, const Region& size) {
    return {int(std::lround(middle.x - 0.5 * size.width)), int(std::lround(middle.y - 0.5 * size.height)),
            size.width, size.height};
}

PixelPlace middle_of(const Region& region) {
    return {region.left + 0.5 * region.width, region.top + 0.5 * region.height};
}

}  // namespace

Turning::Turning(double degrees, int width, int height)
    : degrees_(degrees),
      cos_(std::cos(degrees * std::numbers::pi / 180)),
      sin_(std::sin(degrees * std::numbers::pi / 180)),
      lying_width_(width),
      lying_height_(height),
      width_(int(std::ceil(width * cos_ + height * std::abs(sin_) - kNothing))),
      height_(int(std::ceil(width * std::abs(sin_) + height * cos_ - kNothing))) {}

PixelPlace Turning::place_turned(PixelPlace lying) const {
    const double x = lying.x - 0.5 * lying_width_, y = lying.y - 0.5 * lying_height_;
    return {0.5 * width_ + cos_ * x - sin_ * y, 0.5 * height_ + sin_ * x + cos_ * y};
}

PixelPlace Turning::place_lying(PixelPlace turned) const {
    const double x = turned.x - 0.5 * width_, y = turned.y - 0.5 * height_;
    return {0.5 * lying_width_ + cos_ * x + sin_ * y, 0.5 * lying_height_ - sin_ * x + cos_ * y};
}

Region Turning::turned(const Region& lying) const {
    return about(place_turned(middle_of(lying)), lying);
}

Region Turning::lying(const Region& turned) const {
    return about(place_lying(middle_of(turned)), turned);
}

Region Turning::within_scan(const Region& region) const {
    double left = region.left, top = region.top, right = left + region.width, bottom = top + region.height;
    const double tan = sin_ / cos_;
    // Each edge of the scan draws in the side of the region that runs along it, to where it lies deepest
    // between the two neighbours. These move too, so a few rounds are needed; they only ever draw in.
    for (int round = 0; round < 4; ++round) {
        const auto [corner_x, corner_y] = place_turned({0, 0});
        const auto [far_x, far_y] = place_turned({double(lying_width_), double(lying_height_)});
        top = std::max(top, corner_y + std::max(tan * (left - corner_x), tan * (right - corner_x)));
        bottom = std::min(bottom, far_y + std::min(tan * (left - far_x), tan * (right - far_x)));
        left = std::max(left, corner_x + std::max(-tan * (top - corner_y), -tan * (bottom - corner_y)));
        right = std::min(right, far_x + std::min(-tan * (top - far_y), -tan * (bottom - far_y)));
    }
    const int first_x = int(std::ceil(left - kNothing)), first_y = int(std::ceil(top - kNothing));
    return {first_x, first_y, std::max(0, int(std::floor(right + kNothing)) - first_x),
            std::max(0, int(std::floor(bottom + kNothing)) - first_y)};
}

}  // namespace fogproof::pixels
