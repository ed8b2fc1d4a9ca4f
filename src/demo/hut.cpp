// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The hut, in coordinates of its own: x along its front, z to its back.
#include <algorithm>
#include <vector>

#include "demo/noise.hpp"
#include "demo/scene.hpp"

namespace fogproof::demo {
namespace {

constexpr Vec kHut{5.2, ground(22.6), 22.6};
constexpr double kCos = 0.9287, kSin = 0.3709;  // it stands turned to the left
constexpr double kHalfWide = 2.5, kHalfDeep = 3.1, kEaves = 2.25, kPitch = 0.61;

Vec of_hut(Vec v) {
    return {kCos * v.x + kSin * v.z, v.y, kCos * v.z - kSin * v.x};
}
Vec of_scene(Vec v) {
    return {kCos * v.x - kSin * v.z, v.y, kCos * v.z + kSin * v.x};
}

enum class Finish { snow, logs, boards };

// The points p with |dot(plane, p - middle)| <= 1 for every plane.
struct Block {
    Finish finish;
    Vec middle;
    std::vector<Vec> planes;
};
Block box(Finish finish, Vec middle, Vec half, double lean = 0) {
    const double c = std::cos(lean), s = std::sin(lean);
    return {finish, middle, {1 / half.x * Vec{c, s, 0}, 1 / half.y * Vec{-s, c, 0}, {0, 0, 1 / half.z}}};
}

std::vector<Block> made_hut() {
    const double c = std::cos(kPitch), s = std::sin(kPitch), ridge = kEaves + kHalfWide * s / c;
    std::vector<Block> made{box(Finish::logs, {0, -1, 0}, {kHalfWide, 6, kHalfDeep}),
                            box(Finish::boards, {-1.1, 3.9, 1.1}, {0.3, 1.0, 0.3}),  // a chimney
                            box(Finish::snow, {-1.1, 4.98, 1.1}, {0.33, 0.10, 0.33})};
    for (const double side : {-1.0, 1.0}) {
        made[0].planes.push_back(1 / (ridge + 1) * Vec{side * s / c, 1, 0});  // cuts the walls to gables
        for (int i = 0; i < 10; ++i)  // beams stick out at the corners
            made.push_back(
                box(Finish::boards, {side * 2.38, 0.12 + 0.24 * i, 0}, {0.11, 0.10, kHalfDeep + 0.2}));
        // Snow lies thick on the roof; the upper faces of both slopes meet over the ridge.
        constexpr double kThick = 0.23, kLength = 3.6;
        const double past = 2 * kThick * s / c, out = 0.5 * kLength - past;
        made.push_back(box(Finish::snow, {side * (out * c + kThick * s), ridge + kThick * c - out * s, 0},
                           {0.5 * kLength, kThick, kHalfDeep + 0.66}, -side * kPitch));
    }
    return made;
}

struct Met {
    double way = 1e9;
    Vec at, normal;
    const Block* block = nullptr;
};

// A line enters a block at the last plane it comes in by, if that is before the first it leaves by.
bool passes(const Block& block, Vec from, Vec way, Met& nearest) {
    double in = 1e-3, out = nearest.way;
    Vec normal;
    for (const Vec& plane : block.planes) {
        const double speed = dot(plane, way), at = dot(plane, block.middle - from), sign = speed > 0 ? 1 : -1;
        if ((at - sign) / speed > in) in = (at - sign) / speed, normal = -sign * plane;
        out = std::min(out, (at + sign) / speed);
        if (in >= out) return false;
    }
    if (in > 1e-3) nearest = {in, from + in * way, unit(normal), &block};
    return true;
}

// Snow is looked at a little aside, which makes its outlines uneven.
Met looked(Vec from, Vec way, Vec way_to_snow, double farthest = 1e9) {
    static const std::vector<Block> hut = made_hut();
    static const Block around = box(Finish::snow, {0, 2.5, 0}, {3.7, 3.5, 4.4});
    Met nearest{farthest, {}, {}, nullptr}, any;
    if (passes(around, from, way, any))
        for (const Block& block : hut)
            passes(block, from, block.finish == Finish::snow ? way_to_snow : way, nearest);
    return nearest;
}

bool in_opening(Vec p, double x, double y, double wide, double tall) {
    return std::abs(p.x - x) < wide && std::abs(p.y - y) < tall;
}

// Light of what a line met.
double seen(const Met& met, double spot) {
    const Vec p = met.at;
    const bool logs = met.block->finish == Finish::logs, front = std::abs(met.normal.z) > 0.5;
    const bool door = in_opening(p, 0.75, 0.95, 0.56, 1.10), window = in_opening(p, -1.15, 1.35, 0.55, 0.50);
    const double reach = met.way * spot;
    Vec normal = met.normal;
    double reflectance = 0.9;
    if (met.block->finish == Finish::snow && normal.y > -0.5) {
        const auto uneven = [&](std::uint32_t seed) {
            return 0.35 * fractal(p.x, p.z + p.y, {0.9, 7, 0.7, seed}, reach);
        };
        normal = unit(normal + Vec{uneven(811), 0, uneven(821)});
    } else if (logs && front && (door || window)) {
        // The door stands open on a dark room; panes mirror a little sky.
        if (in_opening(p, 0.75, 0.95, 0.46, 1.0)) return 0.0035 + 0.006 * smoothstep(1.05, 0.45, p.x);
        if (in_opening(p, -1.15, 1.35, 0.46, 0.41) && std::abs(p.x + 1.15) > 0.025 &&
            std::abs(p.y - 1.35) > 0.025)
            return 0.03 + 0.10 * smoothstep(0.8, 1.8, p.y + 0.4 * p.x);
        reflectance = 0.42;
    } else {
        // Logs lie on one another; boards stand upright in the gable.
        const bool upright = logs && front && p.y > kEaves + 0.15;
        const double level = front ? p.x : p.z, along = upright ? p.y : level, over = upright ? level : p.y;
        reflectance = 0.24 + 0.12 * fractal(along * 0.08, over, {0.10, 6, 0.85, 831}, 0.4 * reach);
        const double row = over / (upright ? 0.19 : 0.24) + 0.12 * fractal(along, over, {2.1, 2, 0.5, 851});
        const double bulge = 2 * (row - whole_below(row)) - 1,
                     gap = smoothstep(upright ? 0.9 : 0.72, 0.98, std::abs(bulge));
        if (logs) reflectance *= (0.65 + 0.4 * chance(whole_below(row), front, 853)) * (1 - 0.85 * gap);
        // Snow has drifted up against the walls.
        const double drift = 0.10 + 0.25 * fractal(p.x, p.z, {1.5, 6, 0.55, 861}, reach);
        const double covered = logs ? smoothstep(0.04, -0.04, p.y - drift) : 0;
        reflectance = mix(reflectance, 0.7, covered);
        normal =
            unit(mix(1, 0.15, covered) * normal + Vec{0, covered + (logs && !upright ? 0.75 * bulge : 0), 0});
    }
    double sun = dot(of_scene(normal), kToSun) > 0 ? sun_past_trees(kHut + of_scene(p)) : 0;
    if (sun > 0) sun *= sun_past_hut(kHut + of_scene(p + 0.012 * met.normal));
    return reflected(reflectance, of_scene(normal), sun, 0.8);
}

}  // namespace

void see_hut(Sight& sight) {
    if (sight.u < 0.03 || sight.v > 0.19 || sight.v < -0.07) return;  // it stands at the right
    // Four looks a point, so that outlines are soft; those of snow are uneven.
    constexpr double kLooks[][2] = {{-0.375, -0.125}, {0.125, -0.375}, {0.375, 0.125}, {-0.125, 0.375}};
    const double wave = 0.0028 * fractal(sight.u, sight.v, {0.045, 4, 0.55, 871}, sight.spot);
    const Vec eye = of_hut(-1.0 * kHut);
    Cover cover;
    for (const auto& off : kLooks) {
        const Vec way{sight.u + off[0] * sight.spot, sight.v + off[1] * sight.spot, 1};
        const double ground = way.y < kRise ? kEyeHeight / (kRise - way.y) : 1e9;
        const Met nearest = looked(eye, of_hut(way), of_hut(way + Vec{wave, wave, 0}), ground);
        if (!nearest.block) continue;
        cover.share += 0.25;
        cover.light = mix(cover.light, seen(nearest, sight.spot), 0.25 / cover.share);
    }
    sight.meets(cover);
}

double sun_past_hut(Vec place) {
    const Vec way = of_hut(kToSun);
    const bool may_fall = place.z > 17;  // its shadow falls away from the camera
    return may_fall && looked(of_hut(place - kHut), way, way).block ? 0 : 1;
}

}  // namespace fogproof::demo
