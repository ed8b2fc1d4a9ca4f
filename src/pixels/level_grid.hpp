// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The levels of one mask over a frame, held as a grid that is small beside a scan, whatever the mask's own
// size.
#pragma once

#include <cstdint>
#include <vector>

#include "fogproof/print/local_work.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pixels {

/// Longest side of a grid. On a print of 30 cm a step of it is 0.15 mm: finer than a hand with a card, and
/// than a brush.
inline constexpr int kMostLevels = 2048;

struct LevelGrid {
    int width = 0, height = 0;
    std::vector<std::uint16_t> level;  ///< row by row, 65535 for full

    /// At a place of the frame, both shares of its sides; bilinear between the middles of the grid's cells.
    [[nodiscard]] double at(double x, double y) const;
};

/// The grid's size for a frame, its longer side as given or as long as the frame.
struct GridSize {
    int width, height;
};
[[nodiscard]] GridSize grid_size(int frame_width, int frame_height, int longest = kMostLevels);

/// A shape over a frame of these proportions. A rim that is sharper than the grid becomes as sharp as that.
[[nodiscard]] LevelGrid shape_levels(const MaskShape&, GridSize);

/// Width of the sharpest rim in percent of the longer side: what the steepest tenth of the way across it
/// would take from nil to full; 100 where nothing changes.
[[nodiscard]] double sharpest_rim(const LevelGrid&);

/// Shares of the frame that a mask touches at all and fully, and its mean level over the frame.
struct Touched {
    double some = 0, full = 0, mean = 0;
};
[[nodiscard]] Touched touched(const LevelGrid&);

/// One line of a frame across a grid.
class LevelLine {
  public:
    /// Line `line` of `lines` of the frame.
    LevelLine(const LevelGrid&, int line, int lines);

    enum class Reach { none, full, between };
    /// What pixels [begin, end) of `width` have all alike.
    [[nodiscard]] Reach reach(int begin, int end, int width) const;
    /// Levels of pixels from `begin` on, 0 to 1.
    void levels(int begin, int end, int width, float* to) const;

  private:
    std::vector<float> row_;
    std::vector<int> empty_, full_;  // how many cells to the left of each are so
};

}  // namespace fogproof::pixels
