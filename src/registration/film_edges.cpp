// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/film_edges.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "base/quantile.hpp"

namespace fogproof::registration {
namespace {

// Density that is clear film, and that is picture for sure. Judgement.
constexpr double kClearFilm = 0.05, kSurelyPicture = 0.12;
// How far in the picture is looked at, as multiples of the usual edge and pixels more.
constexpr double kDeep = 2;
constexpr int kDeeper = 6;
constexpr std::size_t kFewestLinesMet = 20;

// Half way in light between clear film and picture along one line inwards, in pixels.
std::optional<double> edge_along(const std::vector<double>& line, int deep) {
    if (line[0] > kClearFilm) return std::nullopt;
    const double inside = line[std::size_t(deep)];
    if (inside < kSurelyPicture) return std::nullopt;
    const double half = (std::pow(10.0, -line[0]) + std::pow(10.0, -inside)) / 2;
    for (std::size_t i = 1; i <= std::size_t(deep); ++i) {
        const double before = std::pow(10.0, -line[i - 1]), here = std::pow(10.0, -line[i]);
        if (here > half) continue;
        // Pixel i's middle lies at i + 0.5.
        return double(i) - 0.5 + (before > here ? (before - half) / (before - here) : 0.5);
    }
    return std::nullopt;
}

// `at(along, depth)` is the density of a pixel so deep behind a side of `length` pixels.
double edge_of(const auto& at, int length, int depth, double usual) {
    const int deep = std::min(depth / 4, int(std::lround(kDeep * usual)) + kDeeper);
    std::vector<double> found;
    for (int along = length / 20; along < length - length / 20; ++along) {
        std::vector<double> line;
        for (int i = 0; i <= deep; ++i) line.push_back(at(along, i));
        if (const auto edge = edge_along(line, deep)) found.push_back(*edge);
    }
    return found.size() < kFewestLinesMet ? usual : median(std::move(found));
}

}  // namespace

FilmEdges film_edges(const SmallNegative& view, double usual) {
    const int w = view.width, h = view.height;
    const auto density = [&](int x, int y) {
        return view.density[std::size_t(y) * std::size_t(w) + std::size_t(x)].value;
    };
    const double left = edge_of([&](int a, int d) { return density(d, a); }, h, w, usual);
    const double right = edge_of([&](int a, int d) { return density(w - 1 - d, a); }, h, w, usual);
    const double top = edge_of([&](int a, int d) { return density(a, d); }, w, h, usual);
    const double bottom = edge_of([&](int a, int d) { return density(a, h - 1 - d); }, w, h, usual);
    return {left / w, top / h, 1 - right / w, 1 - bottom / h};
}

}  // namespace fogproof::registration
