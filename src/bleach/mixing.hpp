// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What goes into a tray: volumes of a diluted concentrate, weights of a bath mixed from powders.
// Not modelled: that powders take up volume; a bath from powders is filled up to its mark.
#pragma once

#include "fogproof/bleach/bleach.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::bleach {

/// Volume that covers a floor to a depth, litres.
[[nodiscard]] double tray_litres(double width_mm, double length_mm, double depth_mm);
/// Volume for a sheet when nobody names a tray: 1 L fills a tray for 24 x 30 cm (common practice, no source);
/// other sheets by their area, in steps of 0.1 L upwards, at least half a litre.
[[nodiscard]] double usual_litres(double width_mm, double length_mm);

/// One part of concentrate in N of water.
struct DilutedBath {
    double concentrate_ml, additive_ml, water_ml;
};
/// So many litres of a bath 1+N; an additive of so many ml per litre of finished bath takes the place of
/// water, so that the bath is neither more nor weaker. Throws Error(Fault::usage) when it does not fit.
[[nodiscard]] DilutedBath diluted(double litres, double parts, double additive_ml_l = 0);

/// Grams for so many litres of the working bath, for those who keep no concentrate.
struct BleachPowders {
    double ferricyanide_g, bromide_g;
};
[[nodiscard]] BleachPowders bleach_powders(const BleachBath&, double litres);

}  // namespace fogproof::bleach
