// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The tone curve of a print, out of its even ground, with the falloff of the enlarger's light: dust, handwork
// and stains are outvoted.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/even_ground.hpp"
#include "reading/handwork.hpp"

namespace fogproof::reading {

/// One tone: what the paper saw and what it made of it.
struct PrintTone {
    double over_paper;  ///< density over the paper in all: the negative's, flare and falloff included
    double density;     ///< of the print
    double error;       ///< standard deviation by which it may err by itself
    double area;        ///< share of the frame that is shown
};

/// What a density of the negative is over the paper: Callier Q times it, with flare over the frame's mean
/// light.
struct FilmOverPaper {
    double callier = 1, flare = 0, mean_transmitted = 0;
    [[nodiscard]] double density(double negative) const;
};

struct PrintCurve {
    double falloff = 0;              ///< log10 of light lost from the middle of the frame to its corners
    Handwork work{};                 ///< where a hand added light or held it back
    std::vector<PrintTone> tones{};  ///< from thin to dense places of the negative
    std::vector<char> counted{};     ///< for each square of the ground, whether it agrees with the curve
    /// Density of the print where so much lay over the paper; straight between tones, level beyond.
    [[nodiscard]] double density(double over_paper) const;
    /// The inverse: nothing where the curve is too level to tell.
    [[nodiscard]] std::optional<double> over_paper(double density) const;
};

/// A print with fewer tones than this is not read. Judgement.
inline constexpr std::size_t kFewestReadTones = 5;
/// Nothing where even ground is too little for that.
[[nodiscard]] std::optional<PrintCurve> print_curve(const EvenGround&, const FilmOverPaper&);

}  // namespace fogproof::reading
