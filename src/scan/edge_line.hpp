// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A straight edge through points most of which lie on it and the rest anywhere.
#pragma once

#include <cmath>
#include <optional>
#include <span>

#include "fogproof/rooms.hpp"

namespace fogproof::scan {

struct EdgePoint {
    double along, depth;
};

/// depth = at + slope * along.
struct EdgeLine {
    double at = 0, slope = 0;
    [[nodiscard]] double depth(double along) const { return at + slope * along; }
};

inline constexpr double kOnEdge = 1.5;        // pixels of the small picture
inline constexpr double kSteepestEdge = 0.1;  // about 6 degrees askew; judgement

/// The line that the most points lie within kOnEdge of, drawn through pairs of them (random sample consensus,
/// Fischler and Bolles 1981, here over a fixed choice of pairs so that the answer is always the same), then
/// fitted to those points by least squares. Nothing for fewer than 8 points or when no line is flat enough.
[[nodiscard]] std::optional<EdgeLine> edge_through(std::span<const EdgePoint>);
[[nodiscard]] inline bool lies_on(const EdgeLine& line, const EdgePoint& point) {
    return std::abs(point.depth - line.depth(point.along)) <= kOnEdge;
}

}  // namespace fogproof::scan
