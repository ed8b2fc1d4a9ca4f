// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Kinds of number that must not be mixed: three logarithmic densities, one logarithmic exposure, one time.
// All are plain doubles at run time; the kind only keeps a density of the negative from being handed to a
// room that expects a density of the print.
#pragma once

#include <compare>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

template <class Kind>
struct Quantity {
    double value{};

    friend constexpr auto operator<=>(Quantity, Quantity) = default;
    friend constexpr Quantity operator+(Quantity a, Quantity b) { return {a.value + b.value}; }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return {a.value - b.value}; }
    friend constexpr Quantity operator*(double factor, Quantity a) { return {factor * a.value}; }
};

/// log10(1/T) of the negative, above clear film when a clear-film reference is known.
using NegativeDensity = Quantity<struct NegativeDensityKind>;
/// One-pass transmission density of the silver in the paper's layer, log10(1/T), without base or surface.
using LayerDensity = Quantity<struct LayerDensityKind>;
/// Visual reflection density of the dry print, log10(1/R) (ISO 5-4 geometry, ISO 5-3 visual weighting).
using PrintDensity = Quantity<struct PrintDensityKind>;
/// log10 of the exposure at the easel, in seconds at the anchor setting of the enlarger through what lay in
/// its carrier then.
using LogExposure = Quantity<struct LogExposureKind>;
/// Seconds of exposure or of treatment.
using Seconds = Quantity<struct SecondsKind>;

}  // namespace fogproof::base
