// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a bath can do by stoichiometry: Ag + [Fe(CN)6]3- + Br- -> AgBr + [Fe(CN)6]4-.
#pragma once

#include "fogproof/base/quantity.hpp"
#include "fogproof/bleach/bleach.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::bleach {

/// Molar masses in g/mol, from standard atomic weights.
inline constexpr double kSilverMolarMass = 107.868;
inline constexpr double kFerricyanideMolarMass = 329.248;   ///< K3[Fe(CN)6]
inline constexpr double kBromideMolarMass = 119.002;        ///< KBr
inline constexpr double kSilverBromideMolarMass = 187.772;  ///< AgBr

/// Photometric equivalent: grams of silver per square metre for a layer density of 1.
/// Source: Sheppard and Mees (1907), 0.01031 g per 100 cm2, from memory; typically 1 to 3 g/m2 (Great Soviet
/// Encyclopedia).
inline constexpr double kSilverPerDensity_g_m2 = 1.03;

/// Grams of ferricyanide and of bromide that so many grams of silver take up.
[[nodiscard]] double ferricyanide_for_silver_g(double silver_g);
[[nodiscard]] double bromide_for_silver_g(double silver_g);
/// Grams of silver in an area at a mean layer density.
[[nodiscard]] double silver_g(LayerDensity mean, double area_m2);
/// Grams of silver that a litre of the working bath can rehalogenate; the scarcer of ferricyanide and bromide
/// counts.
[[nodiscard]] double capacity_silver_g_l(const BleachBath&);

}  // namespace fogproof::bleach
