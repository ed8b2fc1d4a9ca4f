// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/lid_ground.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

#include "base/quantile.hpp"
#include "reading/light_density.hpp"

namespace fogproof::reading {
namespace {

// An edge is looked for across so many blocks to both sides, which is farther than a scanner blurs it.
constexpr int kAcrossEdge = 2;
// Judgement, in density: a fainter step is as likely one of 8-bit codes; and deviations of what noise makes.
constexpr double kFaintestEdge = 0.006, kBeyondNoise = 5;

// Blocks row by row; those beyond the rim are as those at it.
struct Blocks {
    const std::vector<double>& values;
    int width, height;
    [[nodiscard]] std::size_t index(int x, int y) const {
        return std::size_t(std::clamp(y, 0, height - 1)) * std::size_t(width) +
               std::size_t(std::clamp(x, 0, width - 1));
    }
    [[nodiscard]] double at(int x, int y) const { return values[index(x, y)]; }
    [[nodiscard]] bool is_on_rim(int x, int y) const {
        return std::min({x, y, width - 1 - x, height - 1 - y}) < 2;
    }
};

// Means over three by three blocks.
std::vector<double> smoothed(const Blocks& blocks) {
    std::vector<double> means;
    means.reserve(blocks.values.size());
    for (int y = 0; y < blocks.height; ++y)
        for (int x = 0; x < blocks.width; ++x) {
            double sum = 0;
            for (int row = y - 1; row <= y + 1; ++row)
                for (int column = x - 1; column <= x + 1; ++column) sum += blocks.at(column, row);
            means.push_back(sum / 9);
        }
    return means;
}

// The larger step across each block, to the right and down.
std::vector<double> steps_across(const Blocks& blocks) {
    std::vector<double> steps;
    steps.reserve(blocks.values.size());
    for (int y = 0; y < blocks.height; ++y)
        for (int x = 0; x < blocks.width; ++x)
            steps.push_back(
                std::max(std::abs(blocks.at(x + kAcrossEdge, y) - blocks.at(x - kAcrossEdge, y)),
                         std::abs(blocks.at(x, y + kAcrossEdge) - blocks.at(x, y - kAcrossEdge))));
    return steps;
}

double edge_beyond(const Blocks& steps) {
    std::vector<double> on_rim;
    for (int y = 0; y < steps.height; ++y)
        for (int x = 0; x < steps.width; ++x)
            if (steps.is_on_rim(x, y)) on_rim.push_back(steps.at(x, y));
    return std::max(kFaintestEdge, kBeyondNoise * kMadToSigma * median(std::move(on_rim)));
}

// One connected ground out of those blocks that are left, and whether it reaches the rim.
struct Ground {
    std::vector<std::size_t> blocks{};
    double mean = 0;
    bool reaches_rim = false;
};

Ground taken_from(std::vector<char>& left, const Blocks& apart, int from_x, int from_y) {
    Ground ground;
    std::vector<std::pair<int, int>> open{{from_x, from_y}};
    left[apart.index(from_x, from_y)] = 0;
    while (!open.empty()) {
        const auto [x, y] = open.back();
        open.pop_back();
        ground.blocks.push_back(apart.index(x, y));
        ground.mean += apart.at(x, y);
        ground.reaches_rim = ground.reaches_rim || apart.is_on_rim(x, y);
        for (const auto& [nx, ny] : {std::pair{x + 1, y}, {x - 1, y}, {x, y + 1}, {x, y - 1}}) {
            if (nx < 0 || ny < 0 || nx >= apart.width || ny >= apart.height || !left[apart.index(nx, ny)])
                continue;
            left[apart.index(nx, ny)] = 0;
            open.emplace_back(nx, ny);
        }
    }
    ground.mean /= double(ground.blocks.size());
    return ground;
}

}  // namespace

std::vector<char> lid_ground(const std::vector<double>& apart, int width, int height, double tolerance) {
    const Blocks blocks{apart, width, height};
    const std::vector<double> smooth = smoothed(blocks), steps = steps_across({smooth, width, height});
    const double edge = edge_beyond({steps, width, height});
    std::vector<char> left(apart.size()), lid(apart.size());
    for (std::size_t i = 0; i < apart.size(); ++i)
        left[i] = std::abs(apart[i]) <= tolerance && steps[i] <= edge;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            if (!left[blocks.index(x, y)]) continue;
            const Ground ground = taken_from(left, blocks, x, y);
            if (!ground.reaches_rim || std::abs(ground.mean) > tolerance / 2) continue;
            for (const std::size_t i : ground.blocks) lid[i] = 1;
        }
    return lid;
}

}  // namespace fogproof::reading
