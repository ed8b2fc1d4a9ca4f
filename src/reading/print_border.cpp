// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/print_border.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "base/quantile.hpp"
#include "reading/light_density.hpp"

namespace fogproof::reading {
namespace {

// How far out a border is looked for, as a part of the frame's longer side: from the part that is shown,
// which ends where even ground begins, and at least so far beyond the frame. And the steps on the way.
constexpr double kFarthest = 0.15, kBeyondFrame = 0.08, kBorderStep = 1.0 / 1000;
constexpr int kAlongSide = 120;
// A line along an even border scatters less; lines of one border differ less; paper ends in a larger step. D.
constexpr double kEvenLine = 0.03, kOneBorder = 0.015, kPaperEnd = 0.03;
constexpr std::size_t kFewestLines = 5, kStepLines = 10;
// What a border may be denser than the lightest tone of the picture, for the scanner's sake; and by how much
// sides may differ.
constexpr double kNoDarker = 0.03, kSidesDiffer = 0.025;

struct OutwardLine {
    double density, scatter;
};

// Lines along a side, from just inside of what is shown outwards.
std::vector<OutwardLine> lines_outward(const CalibratedScan& scan, const PlacedFrame& placed,
                                       std::size_t side) {
    const FrameGrid& grid = placed.grid;
    const FramePart& p = placed.shown;
    const std::array<std::array<double, 6>, 4> sides{
        {{double(p.left), double(p.top), double(p.right), double(p.top), 0, -1},
         {double(p.right), double(p.top), double(p.right), double(p.bottom), 1, 0},
         {double(p.left), double(p.bottom), double(p.right), double(p.bottom), 0, 1},
         {double(p.left), double(p.top), double(p.left), double(p.bottom), -1, 0}}};
    const auto [x0, y0, x1, y1, out_x, out_y] = sides[side];
    const double longer = std::max(grid.width, grid.height);
    std::vector<OutwardLine> lines;
    const std::array to_edge{double(p.top), double(grid.width - p.right), double(grid.height - p.bottom),
                             double(p.left)};
    const double farthest = std::max(kFarthest * longer, to_edge[side] + kBeyondFrame * longer);
    std::vector<double> line;
    for (double off = 0; off < farthest; off += kBorderStep * longer) {
        line.clear();
        for (int i = 0; i < kAlongSide; ++i) {
            const double t = 0.1 + 0.8 * i / (kAlongSide - 1);
            const auto [x, y] = placed.warp.at(
                grid.place_of(std::lerp(x0, x1, t) + off * out_x, std::lerp(y0, y1, t) + off * out_y));
            if (!(x >= 0 && y >= 0 && x < scan.image.width && y < scan.image.height)) continue;
            line.push_back(
                density_of_light(scan.scale.reflectance(double(scan.image.light_at(int(x), int(y))))));
        }
        if (line.size() < kAlongSide / 2) break;
        // Dust lies on some of the places.
        lines.push_back({quantile(line, 0.5), (quantile(line, 0.84) - quantile(line, 0.16)) / 2});
    }
    return lines;
}

// The first run of even lines that ends in a step.
std::optional<double> border_of(const std::vector<OutwardLine>& lines, double lightest) {
    std::size_t from = 0;
    const auto is_even = [&](std::size_t i) {
        return lines[i].scatter < kEvenLine && std::abs(lines[i].density - lines[from].density) < kOneBorder;
    };
    while (from < lines.size()) {
        std::size_t to = from;
        while (to < lines.size() && is_even(to)) ++to;
        const bool is_border = to - from >= kFewestLines && lines[from].density < lightest + kNoDarker;
        if (is_border) {
            double sum = 0;
            for (std::size_t i = from + 1; i + 1 < to; ++i) sum += lines[i].density;
            const double density = sum / double(to - from - 2);
            const std::size_t after = std::min(lines.size(), to + kStepLines);
            const bool ends = std::any_of(
                lines.begin() + std::ptrdiff_t(to), lines.begin() + std::ptrdiff_t(after),
                [&](const OutwardLine& line) { return std::abs(line.density - density) > kPaperEnd; });
            return ends ? std::optional(density) : std::nullopt;
        }
        from = std::max(to, from + 1);
    }
    return std::nullopt;
}

}  // namespace

std::optional<double> border_density(const CalibratedScan& scan, const PlacedFrame& placed, double lightest) {
    std::vector<double> found;
    for (std::size_t side = 0; side < 4; ++side)
        if (const auto density = border_of(lines_outward(scan, placed, side), lightest))
            found.push_back(*density);
    std::ranges::sort(found);
    // Beside a cut side the lid passes for a border, and even sky may: what most sides agree on counts.
    std::size_t first = 0, most = 0;
    bool is_alone = false;
    for (std::size_t from = 0; from < found.size(); ++from) {
        std::size_t to = from;
        while (to < found.size() && found[to] - found[from] <= kSidesDiffer) ++to;
        if (to - from > most)
            first = from, most = to - from, is_alone = true;
        else if (to - from == most && from >= first + most)
            is_alone = false;
    }
    if (most < 2 || !is_alone) return std::nullopt;
    return found[first + most / 2];
}

}  // namespace fogproof::reading
