// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Light that a hand added to a print or held back from it: what the print's tones depart by from one tone
// curve, smoothly and only in places. Curve, falloff and handwork are found at once, since each looks like
// the others where a tone lies on one side of a burn's edge only.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/light_grid.hpp"

namespace fogproof::reading {

/// Falloff that is looked for: none to two thirds of a stop. The fourth power of the cosine of half the field
/// of a 50 mm lens on 35 mm film, 23 degrees, is half a stop; condensers add to it. Judgement.
inline constexpr double kLeastFalloff = -0.01, kMostFalloff = 0.2;

/// A square of even ground as the fit sees it.
struct ToneSquare {
    int column, row;        ///< of the squares over the frame
    double squared_radius;  ///< from the frame's middle, half diagonals
    double over_paper;      ///< density over the paper without falloff
    double density;         ///< of the print
};

struct Handwork {
    LightGrid grid;
    double falloff = 0;  ///< log10 of light lost from the middle of the frame to its corners
    /// Standard deviation by which single squares miss curve and handwork, D; and each square's miss.
    double scatter = 0;
    std::vector<double> misses{};
    /// What moves a square's density: its light, and the curve's numbers and the falloff.
    struct Moved {
        double weight;    ///< of the square, 1/D^2
        double by_light;  ///< D over log10
        int first;        ///< of the four numbers of the curve that count there
        std::array<double, 4> by_curve;
        double by_falloff;  ///< D over log10 at the corners
    };
    std::vector<Moved> moved{};
    double thinnest = 0, densest = 0;  ///< over the paper, between which the curve goes

    /// Density (rms over those squares that have any) that this light makes and that no other curve and no
    /// other falloff would have made instead, `light` being log10 at each square. Where tones hardly change,
    /// or are found at one place alone, a hand cannot be told from the paper.
    [[nodiscard]] double told_apart(std::span<const double> light) const;
};

/// What is known of the falloff beforehand; log10 of light.
struct FalloffKnown {
    double usual, doubt;
};
/// Before a print was looked at. Judgement.
inline constexpr FalloffKnown kUsualFalloff{0.05, 0.04};

/// Handwork out of the squares of a frame of `columns` by `rows` of them. Most of each tone is taken to be
/// unworked.
[[nodiscard]] Handwork handwork_on(std::span<const ToneSquare>, int columns, int rows, const FalloffKnown&);

}  // namespace fogproof::reading
