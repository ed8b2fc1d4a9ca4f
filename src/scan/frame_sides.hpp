// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The four sides of a picture on a film scan, each a straight line on which background gives way to picture.
#pragma once

#include <array>
#include <cstddef>

#include "fogproof/rooms.hpp"
#include "scan/edge_line.hpp"
#include "scan/film_background.hpp"

namespace fogproof::scan {

/// Sides in this order everywhere.
enum Side : std::size_t { kTop, kBottom, kLeft, kRight };
inline constexpr std::array kSides{kTop, kBottom, kLeft, kRight};

/// The scan looked at from one side: `along` runs on that side, `depth` away from it.
class SideView {
  public:
    SideView(const SmallScan& scan, Side side)
        : length_(side <= kBottom ? scan.width : scan.height),
          depth_(side <= kBottom ? scan.height : scan.width),
          along_(side <= kBottom ? 1 : scan.width),
          inwards_(side <= kBottom ? scan.width : 1),
          corner_(scan.density.data()) {
        if (side != kBottom && side != kRight) return;
        corner_ += (depth_ - 1) * inwards_;
        inwards_ = -inwards_;
    }
    [[nodiscard]] int length() const { return length_; }
    [[nodiscard]] int depth() const { return depth_; }
    [[nodiscard]] double at(int along, int depth) const { return corner_[along * along_ + depth * inwards_]; }

  private:
    int length_, depth_;
    std::ptrdiff_t along_, inwards_;  ///< from one pixel to the next
    const float* corner_;
};

/// Lines of a side between its two neighbours.
struct Stretch {
    int first, last;
    [[nodiscard]] int count() const { return last - first + 1; }
};

struct FrameSide {
    enum class Seen { nothing, clear, holder } seen = Seen::nothing;
    EdgeLine line{};
    bool is_hidden = false;  ///< by deep shadows of the picture: the line is where picture is first seen
};

using FrameSides = std::array<FrameSide, 4>;

[[nodiscard]] FrameSides sides_of_frame(const SmallScan&, const Background&);
/// The sides of what is seen of a picture whose shadows leave no edge of it straight.
[[nodiscard]] FrameSides sides_of_what_is_seen(const SmallScan&, const Background&);
/// True when two opposite sides are seen.
[[nodiscard]] bool enclose(const FrameSides&);
/// The lines of a side that meet the frame: those between its neighbouring sides.
[[nodiscard]] Stretch between(const SmallScan&, const FrameSides&, Side);
/// Mean slope of the sides that are seen, a frame turned clockwise counting as positive.
[[nodiscard]] double slope_of(const FrameSides&);
/// The middle one of their slopes: one side that follows an edge in the picture does not count.
[[nodiscard]] double middle_slope(const FrameSides&);

}  // namespace fogproof::scan
