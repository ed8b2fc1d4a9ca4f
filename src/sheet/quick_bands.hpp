// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A quadrature for visual density and for luminance on a few bands: exact wherever the spectrum is a
// polynomial of the sixth degree in wavelength, which the smooth spectra of silver on paper nearly are.
#pragma once

#include <array>
#include <cstddef>

#include "fogproof/rooms.hpp"

namespace fogproof::sheet {

struct WeightedBand {
    std::size_t band;
    double visual;     ///< weight in visual_density()
    double luminance;  ///< weight in Y of xyz_under_d50()
};
inline constexpr std::size_t kQuickBands = 7;
[[nodiscard]] const std::array<WeightedBand, kQuickBands>& quick_bands();

}  // namespace fogproof::sheet
