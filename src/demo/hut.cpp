// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/hut.hpp"

#include "demo/noise.hpp"

namespace fogproof::demo {
namespace {

constexpr double kEaves = 2.35, kPitchSin = 0.58, kPitchCos = 0.8146, kPitchTan = kPitchSin / kPitchCos;
constexpr double kLog = 0.24;
constexpr Vec kWindow{-1.25, 1.38, 0}, kWindowHalf{0.46, 0.44, 0.05};
constexpr Vec kDoor{0.75, 0.98, 0}, kDoorHalf{0.46, 0.98, 0.05};
constexpr Vec kLoft{0, 3.05, 0}, kLoftHalf{0.26, 0.24, 0.05};

double box(Vec p, Vec half) {
    const Vec q{std::abs(p.x) - half.x, std::abs(p.y) - half.y, std::abs(p.z) - half.z};
    const Vec out{std::max(q.x, 0.0), std::max(q.y, 0.0), std::max(q.z, 0.0)};
    return length(out) + std::min(std::max({q.x, q.y, q.z}), 0.0);
}

double smooth_min(double a, double b, double r) {
    const double h = std::max(r - std::abs(a - b), 0.0) / r;
    return std::min(a, b) - h * h * r * 0.25;
}

// A frame of boards round an opening in the front wall.
double frame(Vec p, Vec middle, Vec half) {
    const Vec q = p - middle;
    const double outer = box(q, half + Vec{0.09, 0.09, 0.02});
    return std::max(outer, -box(q, half + Vec{0, 0, 1}));
}

bool within(Vec p, Vec middle, Vec half) {
    return std::abs(p.x - middle.x) < half.x && std::abs(p.y - middle.y) < half.y;
}

}  // namespace

Hut::Hut(const Landscape& land)
    : floor_(land.height(place_.x, place_.z, 3.0) - 0.25),
      cos_(std::cos(place_.turn)),
      sin_(std::sin(place_.turn)) {
    const Vec middle{place_.x, floor_, place_.z};
    bounds_ = {middle + Vec{-5.4, -0.3, -5.4}, middle + Vec{5.4, 6.4, 5.4}};
}

Vec Hut::local(Vec p) const {
    const double x = p.x - place_.x, z = p.z - place_.z;
    return {cos_ * x - sin_ * z, p.y - floor_, sin_ * x + cos_ * z};
}

Hut::Parts Hut::parts(Vec p) const {
    const double hw = place_.half_width, hd = place_.half_depth;
    const double a = std::abs(p.x), ridge = kEaves + hw * kPitchTan;
    Parts d{};
    // Round logs: the wall bulges once a course. Above the eaves the gable is boarded upright.
    const double course = p.y / kLog - std::floor(p.y / kLog) - 0.5;
    const double board = p.x / 0.19 - std::floor(p.x / 0.19) - 0.5;
    const bool opening = p.z < 0 && (within(p, kDoor, kDoorHalf) || within(p, kWindow, kWindowHalf));
    double relief = 0.02;
    if (p.y >= kEaves)
        relief *= std::min(1.0, 9 * (0.5 - std::abs(board)));
    else if (!opening)
        relief = 0.055 * (1 - 4 * course * course);
    const double gable = (p.y - ridge + a * kPitchTan) * kPitchCos - 0.1;
    d.walls = std::max({a - hw, std::abs(p.z) - hd, gable}) - relief;
    // Log ends cross at the corners.
    const double knob = std::max(std::abs(a - hw + 0.05) - 0.1, std::abs(std::abs(p.z) - hd - 0.14) - 0.16);
    const double round = std::sqrt(course * course * kLog * kLog + (a - hw + 0.05) * (a - hw + 0.05)) - 0.105;
    d.walls = std::min(d.walls, std::max({knob, round, p.y - kEaves}));

    const auto slope = [&](double across, double top) {  // coordinates along and out of one roof side
        const double down = (across * kPitchCos + (ridge - p.y) * kPitchSin);
        const double out = (p.y - ridge) * kPitchCos + across * kPitchSin - top;
        return Vec{down, out, p.z};
    };
    const double length_down = (hw + 0.62) / kPitchCos;
    const Vec deck = slope(a, 0.07);
    d.boards =
        box({deck.x - 0.5 * length_down + 0.06, deck.y, deck.z}, {0.5 * length_down + 0.06, 0.06, hd + 0.75});

    // Snow: thick, sagging at the eaves, its edge rounded, one skin over both sides.
    const auto blanket = [&](double across) {
        const Vec q = slope(across, 0.36);
        const double middle = 0.5 * (length_down + 0.06);
        const double r = 0.15;
        return box({q.x - middle + 0.12, q.y, q.z}, {middle + 0.12 - r, 0.235 - r, hd + 0.80 - r}) - r;
    };
    d.snow = smooth_min(blanket(p.x), blanket(-p.x), 0.45);
    d.snow = std::max(d.snow, 0.02 - deck.y);  // none of it under the boards
    // Lumps cost noise, so they are only worked out where they can be met.
    constexpr double highest_lump = 0.12;
    if (d.snow > 4 * highest_lump)
        d.snow -= highest_lump;
    else
        d.snow -= 0.10 * noise(p.x * 0.8, p.z * 0.7 + p.y * 0.4, 501) +
                  0.055 * noise(p.x * 2.1 + p.y, p.z * 1.9, 503);

    const Vec flue = p - Vec{0.95, ridge, 0.9};
    d.chimney = box(flue, {0.3, 0.75, 0.3});
    const double cap =
        box(flue - Vec{0, 0.84, 0}, {0.19, 0.01, 0.19}) - 0.15 - 0.03 * noise(p.x * 3, p.z * 3, 507);
    d.snow = std::min(d.snow, cap);

    const Vec front = p + Vec{0, 0, hd};
    d.trim = std::min(
        {frame(front, kWindow, kWindowHalf), frame(front, kDoor, kDoorHalf), frame(front, kLoft, kLoftHalf)});
    const double sill = box(front - kWindow + Vec{0, kWindowHalf.y + 0.06, 0.10}, {0.56, 0.03, 0.09});
    d.snow = smooth_min(
        d.snow, box(front - kWindow + Vec{0, kWindowHalf.y - 0.02, 0.11}, {0.50, 0.01, 0.05}) - 0.045, 0.02);
    d.trim = std::min(d.trim, sill);
    return d;
}

double Hut::distance(Vec world) const {
    const Parts d = parts(local(world));
    return std::min({d.walls, d.boards, d.snow, d.chimney, d.trim});
}

Finish Hut::finish(Vec world) const {
    const Vec p = local(world);
    const Parts d = parts(p);
    const double nearest = std::min({d.walls, d.boards, d.snow, d.chimney, d.trim});
    if (d.snow <= nearest + 1e-3) return {0.90, 0, true};
    if (d.chimney <= nearest + 1e-3) {
        const double stones = noise(p.x * 5 + p.z * 5, p.y * 7, 509);
        return {0.12 + 0.06 * stones, 0, false};
    }
    const double grain = fractal(p.x * 0.6 + p.z * 0.6, p.y * 14, {1.0, 4, 0.6, 511});
    const double plank = chance(int(std::floor(p.y / kLog)), int(std::floor((p.x + p.z) / 3.1)), 521);
    const double wood = std::max(0.02, 0.062 * (1 + 0.5 * grain) * (0.65 + 0.7 * plank));
    if (d.trim <= nearest + 1e-3) return {0.16 * (1 + 0.4 * grain), 0, false};
    const Vec front = p + Vec{0, 0, place_.half_depth};
    if (std::abs(front.z) < 0.2) {
        if (within(front, kWindow, kWindowHalf)) {
            const Vec q = front - kWindow;
            if (std::min(std::abs(q.x), std::abs(q.y)) < 0.022) return {0.14, 0, false};
            // A lamp inside, low on the right; a short curtain at the top.
            const double lamp = bell((q.x - 0.12) * 1.9) * bell((q.y + 0.1) * 2.0);
            const double curtain = smoothstep(0.16, 0.24, q.y + 0.03 * std::sin(38 * q.x));
            return {0.05, mix(0.05 + 0.42 * lamp, 0.09, curtain), false};
        }
        if (within(front, kLoft, kLoftHalf)) return {0.02, 0.006, false};
        if (within(front, kDoor, kDoorHalf)) {
            const double gap = std::abs(std::fmod(front.x + 10, 0.155) - 0.077) > 0.07 ? 0.35 : 1.0;
            const double upright = fractal(p.x * 14, p.y * 0.6, {1.0, 4, 0.6, 523});
            return {0.045 * gap * (1 + 0.5 * upright), 0, false};
        }
    }
    if (p.y > kEaves) {
        const double upright = fractal(p.x * 12, p.y * 0.7, {1.0, 4, 0.6, 527});
        const double tint = chance(int(std::floor(p.x / 0.19)), 0, 529);
        return {std::max(0.02, 0.058 * (1 + 0.5 * upright) * (0.7 + 0.6 * tint)), 0, false};
    }
    return {wood, 0, false};
}

}  // namespace fogproof::demo
