// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A quadrature for visual density on a few bands: exact wherever the spectrum is a polynomial of the sixth
// degree in wavelength, which the smooth spectra of silver on paper nearly are.
#pragma once

#include <array>
#include <cstddef>

#include "fogproof/rooms.hpp"

namespace fogproof::sheet {

struct WeightedBand {
    std::size_t band;
    double weight;
};
inline constexpr std::size_t kQuickBands = 7;
[[nodiscard]] const std::array<WeightedBand, kQuickBands>& quick_bands();

}  // namespace fogproof::sheet
