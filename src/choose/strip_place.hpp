// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where on the picture a test strip tells most: the band whose tones range widest.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fogproof/base/quantity.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

struct TestStripPlace {
    bool upright;     ///< a column of the picture, else a row
    double from, to;  ///< as shares of the picture's width (upright) or height
    double range;     ///< density between the tenth and the ninetieth percentile within it

    /// "the whole height, between 40 and 55 % of the width, counted from the left".
    [[nodiscard]] std::string in_words() const;
};

/// Looks at bands of 15 % of the side. Densities row by row.
[[nodiscard]] TestStripPlace strip_place(int width, int height, std::span<const NegativeDensity>);

/// Densities of one band of a strip there, counted from 0 at the top (upright) or the left.
[[nodiscard]] std::vector<NegativeDensity> band_densities(const TestStripPlace&, int band, int bands,
                                                          int width, int height,
                                                          std::span<const NegativeDensity>);

}  // namespace fogproof::choose
