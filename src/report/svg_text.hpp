// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The few elements of SVG that a chart needs, as text; coordinates with two decimals.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <utility>

#include "fogproof/rooms.hpp"

namespace fogproof::report::svg {

using Point = std::pair<double, double>;

[[nodiscard]] std::string number(double);
[[nodiscard]] std::string line(Point from, Point to, std::string_view style);
[[nodiscard]] std::string path(std::span<const Point>, std::string_view style);
/// A path back to where it began.
[[nodiscard]] std::string outline(std::span<const Point>, std::string_view style);
[[nodiscard]] std::string label(Point at, std::string_view anchor, std::string_view text,
                                std::string_view style = {});

}  // namespace fogproof::report::svg
