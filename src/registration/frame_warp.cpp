// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/frame_warp.hpp"

#include <cmath>

namespace fogproof::registration {

ScanPlace FrameWarp::at(FramePlace place) const {
    const auto& h = numbers;
    const double bent = 1 + lens() * place.squared_radius(), u = place.u * bent, v = place.v * bent;
    const double w = h[6] * u + h[7] * v + 1;
    return {(h[0] * u + h[1] * v + h[2]) / w, (h[3] * u + h[4] * v + h[5]) / w};
}

std::array<std::array<double, FrameWarp::kNumbers>, 2> FrameWarp::derivatives(FramePlace place) const {
    const auto& h = numbers;
    const double r2 = place.squared_radius(), bent = 1 + lens() * r2, u = place.u * bent, v = place.v * bent;
    const double w = h[6] * u + h[7] * v + 1;
    const auto [x, y] = at(place);
    // By the bent place, for the lens.
    const double xu = (h[0] - h[6] * x) / w, xv = (h[1] - h[7] * x) / w;
    const double yu = (h[3] - h[6] * y) / w, yv = (h[4] - h[7] * y) / w;
    return {{{u / w, v / w, 1 / w, 0, 0, 0, -u * x / w, -v * x / w, r2 * (xu * place.u + xv * place.v)},
             {0, 0, 0, u / w, v / w, 1 / w, -u * y / w, -v * y / w, r2 * (yu * place.u + yv * place.v)}}};
}

FramePlace FrameWarp::back(ScanPlace place) const {
    const auto& h = numbers;
    // (h0 - h6 x) u + (h1 - h7 x) v = x - h2, and the like for y.
    const double a = h[0] - h[6] * place.x, b = h[1] - h[7] * place.x, c = h[3] - h[6] * place.y,
                 d = h[4] - h[7] * place.y;
    const double determinant = a * d - b * c, right = place.x - h[2], below = place.y - h[5];
    const FramePlace bent{(right * d - b * below) / determinant, (a * below - c * right) / determinant};
    FramePlace found = bent;
    for (int round = 0; round < 6; ++round) {
        const double by = 1 + lens() * found.squared_radius();
        found = {bent.u / by, bent.v / by};
    }
    return found;
}

FrameWarp FrameWarp::on_pixels(double factor) const {
    FrameWarp other = *this;
    for (const int i : {0, 1, 2, 3, 4, 5}) other.numbers[std::size_t(i)] /= factor;
    return other;
}

FrameWarp FrameWarp::within_whole(double left, double top) const {
    FrameWarp other = *this;
    const std::array below{numbers[6], numbers[7], 1.0};
    for (std::size_t i = 0; i < below.size(); ++i)
        other.numbers[i] += left * below[i], other.numbers[3 + i] += top * below[i];
    return other;
}

std::array<FramePlace, 4> frame_corners(double width, double height) {
    const double half = half_diagonal(width, height), u = width / 2 / half, v = height / 2 / half;
    return {{{-u, -v}, {u, -v}, {u, v}, {-u, v}}};
}

}  // namespace fogproof::registration
