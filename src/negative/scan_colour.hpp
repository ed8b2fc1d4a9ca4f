// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The colour of a scanned negative: none on black-and-white film, an orange mask on colour film.
#pragma once

#include <array>
#include <optional>
#include <span>

#include "fogproof/base/quantity.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::negative {

/// Linear light in red, green and blue, full scale 1.
using ColourLight = std::array<double, 3>;

struct ColourSample {
    ColourLight light;
    bool in_frame = true;
};

struct ScanColour {
    ColourLight base{};         ///< densities of clear film, or of the thinnest tones, in red, green and blue
    bool base_is_seen = false;  ///< as film around the frame
    double variety = 0;  ///< how far tones of one density differ in colour: spread of log10(red / blue)

    /// True for a base as colour negatives have it: thin to red, denser to green, densest to blue.
    [[nodiscard]] bool is_masked() const;
    /// True where tones have colours of their own, as on no black-and-white film.
    [[nodiscard]] bool is_colourful() const;
};

/// `clear` is the density of clear film, where any was seen. Nothing for fewer than some hundred samples with
/// light in all three channels.
[[nodiscard]] std::optional<ScanColour> scan_colour(std::span<const ColourSample>,
                                                    std::optional<NegativeDensity> clear);

/// How much red, green and blue count for paper, which is blind to red: green and blue alike through clear
/// film, so that neither layer of the film is lost.
[[nodiscard]] ColourLight weights_for_paper(const ColourLight& base);

}  // namespace fogproof::negative
