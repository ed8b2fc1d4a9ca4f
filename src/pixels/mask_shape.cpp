// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <cmath>

#include "pixels/level_grid.hpp"

namespace fogproof::pixels {
namespace {

using Kind = MaskShape::Kind;

// Distance inside of an outline, below 0 outside, in cells of the grid.
class Outline {
  public:
    Outline(const MaskShape& shape, GridSize size) : shape_(shape), width_(size.width), height_(size.height) {
        for (std::size_t i = 0; i < shape.at.size(); ++i)
            at_.push_back(shape.at[i] / 100 * (is_across(i) ? width_ : height_));
    }
    [[nodiscard]] double inside(double x, double y) const {
        switch (shape_.kind) {
            case Kind::top:
                return at_[0] - y;
            case Kind::bottom:
                return at_[0] - (height_ - y);
            case Kind::left:
                return at_[0] - x;
            case Kind::right:
                return at_[0] - (width_ - x);
            case Kind::oval:
                return inside_oval(x - at_[0], y - at_[1]);
            case Kind::polygon:
                break;
        }
        return inside_polygon(x, y);
    }

  private:
    [[nodiscard]] bool is_across(std::size_t number) const {
        if (shape_.kind == Kind::oval || shape_.kind == Kind::polygon) return number % 2 == 0;
        return shape_.kind == Kind::left || shape_.kind == Kind::right;
    }
    // To first order: exact on the outline and on a circle.
    [[nodiscard]] double inside_oval(double x, double y) const {
        const double across = at_[2], down = at_[3];
        const double radius = std::hypot(x / across, y / down);
        const double slope = std::hypot(x / (across * across), y / (down * down));
        if (radius <= 0 || slope <= 0) return std::min(across, down);
        return (1 - radius) * radius / slope;
    }
    [[nodiscard]] double inside_polygon(double x, double y) const {
        double nearest = std::hypot(width_, height_);
        bool is_inside = false;
        for (std::size_t i = 0, j = at_.size() - 2; i < at_.size(); j = i, i += 2) {
            const double ax = at_[j], ay = at_[j + 1], bx = at_[i], by = at_[i + 1];
            const double length = (bx - ax) * (bx - ax) + (by - ay) * (by - ay);
            const double along =
                length > 0 ? std::clamp(((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length, 0.0, 1.0) : 0;
            nearest = std::min(nearest, std::hypot(x - ax - along * (bx - ax), y - ay - along * (by - ay)));
            // Crossings of a ray to the right: inside where they are odd.
            if ((ay > y) != (by > y) && x < ax + (y - ay) / (by - ay) * (bx - ax)) is_inside = !is_inside;
        }
        return is_inside ? nearest : -nearest;
    }

    const MaskShape& shape_;
    double width_, height_;
    std::vector<double> at_;  // in cells
};

}  // namespace

LevelGrid shape_levels(const MaskShape& shape, GridSize size) {
    LevelGrid grid{size.width, size.height, {}};
    grid.level.reserve(std::size_t(size.width) * std::size_t(size.height));
    const Outline outline(shape, size);
    constexpr double kSharpest = 1;  // cell
    const double rim = std::max(kSharpest, shape.soft / 100 * std::max(size.width, size.height));
    for (int y = 0; y < size.height; ++y)
        for (int x = 0; x < size.width; ++x) {
            const double in = std::clamp(outline.inside(x + 0.5, y + 0.5) / rim + 0.5, 0.0, 1.0);
            // Bends in gently at both ends, as the half shadow of a round opening does.
            grid.level.push_back(std::uint16_t(std::lround(65535 * in * in * (3 - 2 * in))));
        }
    return grid;
}

}  // namespace fogproof::pixels
