// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/stand.hpp"

#include <array>

#include "demo/noise.hpp"

namespace fogproof::demo {
namespace {

constexpr double kSquare = 12, kShadowsTo = 1000, kSide = 520;
constexpr int kAcross = int(2 * kSide / kSquare), kAway = int(kShadowsTo / kSquare);

int square_of(double x, double z) {
    const int i = whole_below((x + kSide) / kSquare), j = whole_below(z / kSquare);
    return i < 0 || i >= kAcross || j < 0 || j >= kAway ? -1 : j * kAcross + i;
}

struct Place {
    double x, z, height;
};
constexpr std::array<Place, 23> kNearHut{{{14.6, 35.5, 15.5},
                                          {17.3, 32.6, 11.5},
                                          {11.3, 40.5, 17.5},
                                          {20.6, 39.0, 16.5},
                                          {6.2, 45.0, 14.0},
                                          {22.4, 34.6, 8.0},
                                          {16.2, 45.0, 18.5},
                                          {25.5, 46.0, 17.0},
                                          {2.2, 55.0, 12.5},
                                          {14.0, 27.6, 3.6},
                                          {-21.5, 62.0, 13.5},
                                          {-25.0, 70.0, 17.0},
                                          {-17.8, 78.0, 14.0},
                                          {-31.0, 66.0, 11.0},
                                          {-37.0, 80.0, 18.0},
                                          {-13.0, 90.0, 9.0},
                                          {-10.2, 33.0, 1.7},
                                          {-33.0, 92.0, 16.0},
                                          {9.0, 62.0, 15.5},
                                          // These stand left of the picture; only their shadows come in.
                                          {-14.5, 10.5, 13.0},
                                          {-22.0, 14.5, 17.0},
                                          {-27.0, 10.0, 19.0},
                                          {-11.0, 5.5, 7.0}}};

}  // namespace

Stand::Stand(const Landscape& land) {
    constexpr std::array<double, 6> slim{0.20, 0.165, 0.225, 0.18, 0.15, 0.21};
    for (std::size_t i = 0; i < slim.size(); ++i) kinds_.emplace_back(701 + 13 * std::uint32_t(i), slim[i]);
    int index = 0;
    for (const Place& p : kNearHut) plant(land, p.x, p.z, p.height, index++);
    for (double z = 150; z < 4200;) {
        const double gap = 6.0 + 0.0022 * z, side = 0.52 * z + 45;
        const int row = int(z);
        for (int i = int(-side / gap); i * gap < side; ++i) {
            const double x = (i + 0.75 * (chance(i, row, 731) - 0.5)) * gap;
            const double at = z + 0.8 * gap * (chance(i, row, 733) - 0.5);
            if (chance(i, row, 737) > 0.92 * land.woods(x, at)) continue;
            plant(land, x, at, 17 * (1 + 0.22 * normal_chance(i, row, 739)), index++);
        }
        z += gap;
    }
    std::stable_sort(trees_.begin(), trees_.end(), [](const Tree& a, const Tree& b) { return a.z > b.z; });
    cast_shadows();
}

void Stand::plant(const Landscape& land, double x, double z, double height, int index) {
    const double foot = land.height(x, z, 0.5) - 0.02 * height;
    const double lit = 0.3 + 0.7 * (z > 1200 ? land.sun(x, foot + 0.7 * height, z) : 1.0);
    trees_.push_back({x, z, foot, std::max(height, 1.5), hashed(index, 3, 743) % kinds_.size(), lit});
}

void Stand::cast_shadows() {
    shaded_by_.resize(std::size_t(kAcross) * kAway);
    const double flat = std::sqrt(kToSun.x * kToSun.x + kToSun.z * kToSun.z), reach = 1.25 * flat / kToSun.y;
    for (std::size_t i = 0; i < trees_.size() && i < trees_.size(); ++i) {
        const Tree& tree = trees_[i];
        const double half = Conifer::kHalfWidth * tree.height;
        int before = -1;
        for (double t = 0; t < reach * tree.height + half; t += 0.5 * kSquare)
            for (const double w : {-half, 0.0, half}) {
                const double x = tree.x - (kToSun.x * t + kToSun.z * w) / flat;
                const double z = tree.z - (kToSun.z * t - kToSun.x * w) / flat;
                const int square = square_of(x, z);
                if (square < 0 || square == before) continue;
                auto& list = shaded_by_[std::size_t(square)];
                if (list.empty() || list.back() != i) list.push_back(i);
                before = square;
            }
    }
}

double Stand::sun_past(Vec p) const {
    const int square = square_of(p.x, p.z);
    if (square < 0) return 1;
    const double flat = std::sqrt(kToSun.x * kToSun.x + kToSun.z * kToSun.z);
    double open = 1;
    for (const std::size_t i : shaded_by_[std::size_t(square)]) {
        const Tree& tree = trees_[i];
        const double dx = tree.x - p.x, dz = tree.z - p.z;
        const double along = (dx * kToSun.x + dz * kToSun.z) / flat;
        if (along < 0) continue;
        const double aside = (dz * kToSun.x - dx * kToSun.z) / flat;
        const double up = (p.y + along * kToSun.y / flat - tree.foot) / tree.height;
        const double across = aside / (Conifer::kHalfWidth * tree.height);
        const double blur = 0.0093 * along / (flat * tree.height);  // the sun's disc is 0.53 degrees wide
        open *= 1 - kinds_[tree.kind].look(across, up, blur).cover;
    }
    return open;
}

}  // namespace fogproof::demo
