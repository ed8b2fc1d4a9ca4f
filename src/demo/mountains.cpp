// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/mountains.hpp"

#include <array>
#include <cmath>
#include <numeric>

#include "demo/noise.hpp"

namespace fogproof::demo {
namespace {

struct Peak {
    double x, z, radius_x, radius_z, height;
};
constexpr std::array<Peak, 6> kPeaks{{{-700, 4700, 900, 1000, 1150},
                                      {-2100, 5300, 1000, 1100, 850},
                                      {700, 5600, 1000, 900, 800},
                                      {2100, 4700, 1000, 1200, 640},
                                      {3900, 5400, 1300, 1200, 900},
                                      {-3800, 4600, 1300, 1200, 800}}};

// How high the land would stand if water wore it evenly.
double envelope(double x, double z) {
    const double wx = x + 500 * fractal(x, z, {1900, 4, 0.5, 71}),
                 wz = z + 500 * fractal(x, z, {1900, 4, 0.5, 83});
    double sum = 60;
    for (const Peak& p : kPeaks)
        sum += p.height * bell((wx - p.x) / p.radius_x) * bell((wz - p.z) / p.radius_z);
    return sum * smoothstep(1000.0, 2900.0, z);
}

struct Neighbour {
    int i, j;
    double distance;
};
constexpr std::array<Neighbour, 8> kNeighbours{{{1, 0, 1},
                                                {-1, 0, 1},
                                                {0, 1, 1},
                                                {0, -1, 1},
                                                {1, 1, 1.41421356},
                                                {1, -1, 1.41421356},
                                                {-1, 1, 1.41421356},
                                                {-1, -1, 1.41421356}}};

// One time step: land rises, water gathers downhill and cuts. Pits rise until they overflow.
void wear(Grid& land, const Grid& uplift, const Grid& hold, double strength) {
    const std::size_t count = land.heights.size();
    std::vector<std::uint32_t> order(count), receiver(count);
    std::vector<double> area(count, land.cell * land.cell), distance(count, land.cell);
    std::iota(order.begin(), order.end(), 0u);
    for (int j = 0; j < land.rows; ++j)
        for (int i = 0; i < land.columns; ++i) {
            const std::size_t here = land.index(i, j);
            receiver[here] = std::uint32_t(here);
            double steepest = 0;
            for (const Neighbour& n : kNeighbours) {
                const std::size_t there = land.index(i + n.i, j + n.j);
                const double fall = (land.heights[here] - land.heights[there]) / (n.distance * land.cell);
                if (fall <= steepest) continue;
                steepest = fall;
                receiver[here] = std::uint32_t(there);
                distance[here] = n.distance * land.cell;
            }
        }
    std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
        return land.heights[a] != land.heights[b] ? land.heights[a] < land.heights[b] : a < b;
    });
    for (auto it = order.rbegin(); it != order.rend(); ++it)
        if (receiver[*it] != *it) area[receiver[*it]] += area[*it];
    for (const std::uint32_t here : order) {
        const std::size_t row = here / std::size_t(land.columns);  // both long sides stay where they are
        if (row == 0 || row + 1 == std::size_t(land.rows)) continue;
        double& h = land.heights[here];
        h += uplift.heights[here];
        if (receiver[here] == here) continue;
        const double cut = strength * std::sqrt(area[here]) / distance[here];
        h = (h + cut * land.heights[receiver[here]]) / (1 + cut);
        // Scree slides: no slope stays steeper than its rock can hold.
        h = std::min(h, land.heights[receiver[here]] + hold.heights[here] * distance[here]);
    }
}

Grid refined(const Grid& coarse) {
    Grid fine(coarse.columns * 2, coarse.rows * 2, coarse.left, coarse.near, coarse.cell / 2);
    for (int j = 0; j < fine.rows; ++j)
        for (int i = 0; i < fine.columns; ++i)
            fine.at(i, j) = coarse.smooth(fine.x(i), fine.z(j)).v +
                            0.12 * fine.cell * normal_chance(i, j, 97u + std::uint32_t(fine.columns));
    return fine;
}

Grid uplift_like(const Grid& land, double steps) {
    Grid uplift = land;
    for (int j = 0; j < land.rows; ++j)
        for (int i = 0; i < land.columns; ++i) uplift.at(i, j) = envelope(land.x(i), land.z(j)) / steps;
    return uplift;
}

Grid hold_like(const Grid& land) {
    Grid hold = land;
    for (int j = 0; j < land.rows; ++j)
        for (int i = 0; i < land.columns; ++i)
            hold.at(i, j) =
                0.66 + 0.7 * smoothstep(0.0, 0.6, fractal(land.x(i), land.z(j), {700, 4, 0.6, 91}));
    return hold;
}

}  // namespace

Grid eroded_mountains() {
    struct Pass {
        int steps;
        double uplift_steps, strength;
    };
    constexpr std::array<Pass, 3> passes{{{40, 21, 0.40}, {14, 21, 0.40}, {9, 21, 0.40}}};
    Grid land(120, 96, -4800, 900, 80);
    for (int j = 0; j < land.rows; ++j)
        for (int i = 0; i < land.columns; ++i)
            land.at(i, j) = 0.15 * envelope(land.x(i), land.z(j)) + 8 * normal_chance(i, j, 61);
    for (std::size_t pass = 0; pass < passes.size(); ++pass) {
        if (pass > 0) land = refined(land);
        const Grid uplift = uplift_like(land, passes[pass].uplift_steps), hold = hold_like(land);
        for (int step = 0; step < passes[pass].steps; ++step) wear(land, uplift, hold, passes[pass].strength);
    }
    return land;
}

Grid shadow_heights(const Grid& ground, Vec to_sun) {
    // The sun stands to the left, so columns are finished from the left; one column is one step of the ray.
    Grid shade = ground;
    const double run = ground.cell / -to_sun.x;
    const double rise = run * to_sun.y, shift = run * to_sun.z / ground.cell;
    for (int j = 0; j < ground.rows; ++j) shade.at(0, j) = -1e4;
    for (int i = 1; i < ground.columns; ++i)
        for (int j = 0; j < ground.rows; ++j) {
            const double from = std::clamp(j + shift, 0.0, ground.rows - 1.0);
            const int k = int(from);
            const auto top = [&](int row) { return std::max(ground.at(i - 1, row), shade.at(i - 1, row)); };
            shade.at(i, j) = mix(top(k), top(k + 1), from - k) - rise;
        }
    return shade;
}

}  // namespace fogproof::demo
