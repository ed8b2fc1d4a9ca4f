// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Even ground of a print: small squares over which its negative hardly changes, so that what lies a little
// beside, as lens and scanner blur it in, does not count.
#pragma once

#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/calibrated_scan.hpp"
#include "registration/placing.hpp"

namespace fogproof::reading {

/// Standard deviations of the negative within a square and its surroundings, D.
struct Unevenness {
    double blurred;  ///< as the print's scan shows it
    double sharp;    ///< before that blur: what a scan evens out, it evens in light and not in density
    [[nodiscard]] bool is_within(const Unevenness& most) const {
        return blurred <= most.blurred && sharp <= most.sharp;
    }
};
/// What still counts as even. Judgement, both. The second is for walls, whose tones no ground shows that is
/// quite even.
inline constexpr Unevenness kEvenGround{0.035, 0.08}, kNearlyEvenGround{0.05, 0.05};

struct EvenSquare {
    int column, row;   ///< of the squares over the frame
    FramePlace place;  ///< its middle
    double negative;   ///< density of the negative's mean transmittance
    double density;    ///< of the print's mean light; stands for nothing where it is clipped
    bool is_clipped;
    Unevenness unevenness;
};

struct EvenGround {
    int side = 0;  ///< of a square, pixels of the frame's grid
    int columns = 0, rows = 0;
    std::vector<EvenSquare> squares{};
    std::size_t all = 0;  ///< squares of the frame that the print shows, even or not
    /// The same with those squares alone that are so even.
    [[nodiscard]] EvenGround within(const Unevenness& most) const;
};

/// The print's squares that are even or nearly so, within the part of the frame that it shows.
[[nodiscard]] EvenGround even_ground(const CalibratedScan&, const PlacedFrame&);

}  // namespace fogproof::reading
