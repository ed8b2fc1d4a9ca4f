// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/fence.hpp"

#include "demo/noise.hpp"

namespace fogproof::demo {
namespace {

constexpr Vec kFrom{-19, 0, 37.5}, kTo{3.3, 0, 24.6};
constexpr double kSpacing = 1.95;

// A line with round ends whose radius shrinks from one end to the other.
double rod(Vec p, Vec a, Vec b, double radius_a, double radius_b) {
    const Vec ab = b - a, ap = p - a;
    const double t = std::clamp(dot(ap, ab) / dot(ab, ab), 0.0, 1.0);
    return length(ap - t * ab) - mix(radius_a, radius_b, t);
}

}  // namespace

Fence::Fence(const Landscape& land) {
    const Vec way = kTo - kFrom, side = unit({-way.z, 0, way.x});
    const int count = int(length(way) / kSpacing) + 1;
    for (int i = 0; i < count; ++i) {
        const double t = (i + 0.08 * normal_chance(i, 0, 601)) / (count - 1);
        const Vec at = kFrom + t * way + side * (0.5 * std::sin(5 * t) + 0.08 * normal_chance(i, 1, 601));
        const double ground = land.height(at.x, at.z, 0.1);
        const double tall = 1.02 + 0.10 * normal_chance(i, 2, 601);
        posts_.push_back({{at.x, ground - 0.3, at.z},
                          {at.x + 0.06 * normal_chance(i, 3, 601), ground + tall,
                           at.z + 0.06 * normal_chance(i, 4, 601)}});
    }
    bounds_ = {{1e9, 1e9, 1e9}, {-1e9, -1e9, -1e9}};
    for (const Post& post : posts_) {
        bounds_.low = {std::min(bounds_.low.x, post.foot.x - 0.3), std::min(bounds_.low.y, post.foot.y),
                       std::min(bounds_.low.z, post.foot.z - 0.3)};
        bounds_.high = {std::max(bounds_.high.x, post.foot.x + 0.3),
                        std::max(bounds_.high.y, post.top.y + 0.3),
                        std::max(bounds_.high.z, post.foot.z + 0.3)};
    }
}

Fence::Parts Fence::parts(Vec p) const {
    const Vec way = kTo - kFrom;
    const double t = dot({p.x - kFrom.x, 0, p.z - kFrom.z}, way) / dot(way, way);
    const int last = int(posts_.size()) - 1;
    const int middle = std::clamp(int(t * last + 0.5), 0, last);
    Parts d{1e3, 1e3};
    for (int i = std::max(0, middle - 1); i <= std::min(last, middle + 1); ++i) {
        const Post& post = posts_[std::size_t(i)];
        d.wood = std::min(d.wood, rod(p, post.foot, post.top, 0.075, 0.062));
        const Vec cap = p - post.top - Vec{0.01, 0.055, 0};
        d.snow = std::min(d.snow, 0.6 * (length({cap.x, cap.y * 1.35, cap.z}) - 0.11));
        if (i == last) continue;
        const Post& next = posts_[std::size_t(i + 1)];
        for (int rail = 0; rail < 2; ++rail) {
            const auto height = [&](int j) {
                return (rail ? 0.92 : 0.55) + 0.045 * normal_chance(j, rail, 607);
            };
            const Vec out{0.03, 0, -0.07};
            const Vec a = post.foot + (post.top - post.foot) * height(i) + out;
            const Vec b = next.foot + (next.top - next.foot) * height(i + 1) + out;
            d.wood = std::min(d.wood, rod(p, a, b, 0.043, 0.036));
            // What the wind has left on the rail: a ridge of uneven thickness, here and there none.
            const double left = 0.045 + 0.035 * noise(p.x * 1.7, 3.0 * rail + i, 613);
            const Vec up{0, 0.045, 0};
            d.snow = std::min(d.snow, rod(p, a + up, b + up, left, left));
        }
    }
    return d;
}

double Fence::distance(Vec p) const {
    const Parts d = parts(p);
    return std::min(d.wood, d.snow);
}

Finish Fence::finish(Vec p) const {
    const Parts d = parts(p);
    if (d.snow < d.wood) return {0.90, 0, true};
    const double grain = fractal(p.x * 8 + p.y * 3, p.z * 8 + p.y * 5, {1.0, 3, 0.6, 617});
    return {0.085 * (1 + 0.6 * grain), 0, false};
}

}  // namespace fogproof::demo
