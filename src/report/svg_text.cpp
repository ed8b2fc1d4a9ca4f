// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/svg_text.hpp"

#include "base/markup.hpp"
#include "base/words.hpp"

namespace fogproof::report::svg {
namespace {

std::string attribute(std::string_view name, std::string_view value) {
    return std::string(" ").append(name).append("=\"").append(value).append("\"");
}

std::string steps_over(std::span<const Point> points) {
    std::string steps;
    for (const auto& [x, y] : points)
        steps.append(steps.empty() ? "M" : " L").append(number(x)).append(" ").append(number(y));
    return steps;
}

std::string drawn(const std::string& steps, std::string_view style) {
    return std::string("<path").append(attribute("d", steps)).append(" ").append(style).append("/>\n");
}

}  // namespace

std::string number(double value) {
    return decimal(value, 2);
}

std::string line(Point from, Point to, std::string_view style) {
    return std::string("<line")
        .append(attribute("x1", number(from.first)))
        .append(attribute("y1", number(from.second)))
        .append(attribute("x2", number(to.first)))
        .append(attribute("y2", number(to.second)))
        .append(" ")
        .append(style)
        .append("/>\n");
}

std::string path(std::span<const Point> points, std::string_view style) {
    return drawn(steps_over(points), style);
}

std::string outline(std::span<const Point> points, std::string_view style) {
    return drawn(steps_over(points) + " Z", style);
}

std::string label(Point at, std::string_view anchor, std::string_view text, std::string_view style) {
    return std::string("<text")
        .append(attribute("x", number(at.first)))
        .append(attribute("y", number(at.second)))
        .append(attribute("text-anchor", anchor))
        .append(style.empty() ? "" : " ")
        .append(style)
        .append(">")
        .append(escaped_markup(text))
        .append("</text>\n");
}

}  // namespace fogproof::report::svg
