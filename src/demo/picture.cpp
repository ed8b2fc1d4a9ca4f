// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/picture.hpp"

#include <cmath>
#include <memory>

#include "demo/fence.hpp"
#include "demo/hut.hpp"
#include "demo/noise.hpp"
#include "demo/sky.hpp"
#include "demo/stand.hpp"
#include "system/progress.hpp"
#include "system/threads.hpp"

namespace fogproof::demo {
namespace {

// A lens of 38 mm on 36 x 24 mm, level, its board raised a little: columns of the picture are plumb.
constexpr double kWide = 36.0 / 38, kTall = 24.0 / 38, kTop = 0.345;
constexpr double kEyeHeight = 1.68, kFarthest = 8600;
constexpr float kSky = 1e9f;
constexpr double kSkyLight = 0.23, kGroundLight = 0.40;  // on a level surface, from the whole half sphere

class Scene {
  public:
    Scene(int width, unsigned threads) : width_(width), height_(width * 2 / 3), threads_(threads) {
        eye_ = {0, land_.height(0, 0, 1) + kEyeHeight, 0};
    }
    Picture taken();

  private:
    [[nodiscard]] double u(double column) const { return ((column + 0.5) / width_ - 0.5) * kWide; }
    [[nodiscard]] double v(double row) const { return kTop - (row + 0.5) / height_ * kTall; }
    [[nodiscard]] std::size_t at(int x, int y) const {
        return std::size_t(y) * std::size_t(width_) + std::size_t(x);
    }
    void find_ground(int column);
    [[nodiscard]] double lit_ground(int x, int y) const;
    [[nodiscard]] std::pair<double, double> solid_light(int x, int y, double nearer_than) const;
    void draw_trees(int first_row, int last_row);

    int width_, height_;
    unsigned threads_;
    Landscape land_;
    Hut hut_{land_};
    Fence fence_{land_};
    Stand stand_{land_};
    Vec eye_;
    std::vector<float> depth_;
    Picture picture_;
};

// Light that a surface of snow or wood sends to the camera.
double reflected(double reflectance, Vec normal, double sun, double open) {
    const double square = std::max(0.0, dot(normal, kToSun));
    const double towards_glow = dot(normal, Vec{-0.62, 0.25, -0.74});  // the sky is brightest round the sun
    const double sky = kSkyLight * (0.5 + 0.5 * normal.y) * (0.85 + 0.6 * towards_glow) +
                       kGroundLight * (0.5 - 0.5 * normal.y);
    return reflectance * (sun * square + open * sky);
}

// A level camera sees each column as one upright slice of the ground, so the slice is walked once, outwards,
// and every row gets the distance at which the ground rises above all that stood before it.
void Scene::find_ground(int column) {
    const double side = u(column), pixel = kWide / width_;
    double z = 1.2, v_before = -1e9, z_before = z;
    int row = height_;  // rows from here on are taken
    while (z < kFarthest && row > 0) {
        const double y = land_.height(side * z, z, z * pixel);
        const double v_here = (y - eye_.y) / z;
        while (row > 0 && v(row - 1) <= v_here) {
            const double share = v_here > v_before ? (v(row - 1) - v_before) / (v_here - v_before) : 1;
            depth_[at(column, row - 1)] = float(mix(z_before, z, std::clamp(share, 0.0, 1.0)));
            --row;
        }
        v_before = v_here;
        z_before = z;
        z += std::max(0.0016 * z, std::min(0.35 * z * z * pixel, 0.004 * z));
    }
}

double Scene::lit_ground(int x, int y) const {
    const double z = depth_[at(x, y)], side = u(x);
    const double pixel = z * kWide / width_;
    const double beyond = y > 0 && depth_[at(x, y - 1)] < kSky ? depth_[at(x, y - 1)] : z;
    const double stretch = std::clamp(beyond - z, pixel, 40 * pixel);
    const double footprint = 0.5 * std::sqrt(pixel * stretch);
    const Jet ground = land_.surface(side * z, z, footprint);
    const Vec normal = unit({-ground.dx, 1, -ground.dz});
    const Vec p{side * z, ground.v, z};
    double sun = dot(normal, kToSun) > 0 ? land_.sun(p.x, p.y, p.z) : 0;
    double open = 1;
    if (sun > 0) sun *= stand_.sun_past(p);
    if (z < 60) {
        const Vec lifted = p + Vec{0, 0.01, 0};
        if (sun > 0) sun *= hut_.sun_past(lifted, kToSun) * fence_.sun_past(lifted, kToSun);
        const double near_hut = std::max(0.0, hut_.distance(p));
        open = near_hut < 3 ? 1 - 0.5 * std::exp(-near_hut) : 1;
        open *= land_.openness(p.x, p.z);
    }
    const double steep_dark = land_.rock(p.x, p.z, ground, footprint);
    const double snow = reflected(0.90, normal, sun, open);
    if (steep_dark <= 0) return snow;
    const double stone = 0.11 * (1 + 1.1 * fractal(p.x, 0.6 * p.z + 2 * p.y, {55, 6, 0.65, 801}, footprint));
    return mix(snow, reflected(std::max(0.03, stone), normal, sun, open), steep_dark);
}

// Luminance and distance of the nearest built thing; no distance when there is none.
std::pair<double, double> Scene::solid_light(int x, int y, double nearer_than) const {
    const Vec direction = unit({u(x), v(y), 1});
    const Solid* seen = nullptr;
    double t = nearer_than / direction.z;
    for (const Solid* thing : {static_cast<const Solid*>(&hut_), static_cast<const Solid*>(&fence_)})
        if (const auto met = thing->hit(eye_, direction); met && *met < t) {
            t = *met;
            seen = thing;
        }
    if (!seen) return {0, 0};
    const Vec p = eye_ + t * direction;
    const Finish finish = seen->finish(p);
    const Vec normal = seen->normal(p, finish.snow ? 0.02 : 0.006);
    const Vec lifted = p + 0.02 * normal;
    double sun = dot(normal, kToSun) > 0 ? stand_.sun_past(p) : 0;
    if (sun > 0) sun *= hut_.sun_past(lifted, kToSun) * fence_.sun_past(lifted, kToSun);
    return {reflected(finish.reflects, normal, sun, seen->openness(p, normal)) + finish.glows,
            t * direction.z};
}

void Scene::draw_trees(int first_row, int last_row) {
    const double rows_a_unit = height_ / kTall;
    for (const Tree& tree : stand_.trees()) {
        const double half = Conifer::kHalfWidth * tree.height;
        const double top = (tree.foot + tree.height - eye_.y) / tree.z,
                     bottom = (tree.foot - eye_.y) / tree.z;
        const int y0 = std::max(first_row, int((kTop - top) * rows_a_unit));
        const int y1 = std::min(last_row, int((kTop - bottom) * rows_a_unit) + 2);
        const int x0 = std::max(0, int(((tree.x - half) / tree.z / kWide + 0.5) * width_));
        const int x1 = std::min(width_, int(((tree.x + half) / tree.z / kWide + 0.5) * width_) + 2);
        const double detail = 1.15 * tree.z / (rows_a_unit * tree.height);
        const Conifer& kind = stand_.kind(tree);
        for (int y = y0; y < y1; ++y)
            for (int x = x0; x < x1; ++x) {
                if (depth_[at(x, y)] < tree.z) continue;
                const double across = (u(x) * tree.z - tree.x) / half;
                const double up = (eye_.y + v(y) * tree.z - tree.foot) / tree.height;
                const Conifer::Look look = kind.look(across, up, detail);
                if (look.cover <= 0) continue;
                const Haze haze = haze_before(u(x), v(y), tree.z);
                float& light = picture_.luminance[at(x, y)];
                light = float(light * (1 - look.cover) + look.light * tree.lit * haze.through +
                              look.cover * haze.light);
            }
    }
}

Picture Scene::taken() {
    const auto pixels = std::size_t(width_) * std::size_t(height_);
    depth_.assign(pixels, kSky);
    picture_ = {width_, height_, std::vector<float>(pixels)};
    in_parallel(
        std::size_t(width_), [this](std::size_t column) { find_ground(int(column)); }, threads_);
    std::vector<float> built(pixels,
                             0.0f);  // distances are read by neighbours, so they change only afterwards
    WorkSteps steps("drawing the demo's picture", 2 * std::size_t(height_));
    const auto light_row = [&](std::size_t row) {
        const int y = int(row);
        for (int x = 0; x < width_; ++x) {
            const double z = depth_[at(x, y)];
            auto [light, distance] = solid_light(x, y, std::min(z, 100.0));
            if (distance > 0)
                built[at(x, y)] = float(distance);
            else
                light = z < kSky ? lit_ground(x, y) : sky_luminance(u(x), v(y));
            const double away = distance > 0 ? distance : z;
            if (away < kSky) {
                const Haze haze = haze_before(u(x), v(y), away);
                light = light * haze.through + haze.light;
            }
            picture_.luminance[at(x, y)] = float(light);
        }
        steps.done();
    };
    in_parallel(std::size_t(height_), light_row, threads_);
    for (std::size_t i = 0; i < pixels; ++i)
        if (built[i] > 0) depth_[i] = built[i];
    constexpr int band = 32;
    const auto draw_band = [&, this](std::size_t i) {
        const int top = int(i) * band, bottom = std::min(height_, top + band);
        draw_trees(top, bottom);
        steps.done(std::size_t(bottom - top));
    };
    in_parallel(std::size_t((height_ + band - 1) / band), draw_band, threads_);
    return std::move(picture_);
}

}  // namespace

Picture photographed(int width, unsigned threads) {
    return Scene(width, threads).taken();
}

}  // namespace fogproof::demo
