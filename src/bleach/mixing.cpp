// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "bleach/mixing.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"

namespace fogproof::bleach {

double tray_litres(double width_mm, double length_mm, double depth_mm) {
    return width_mm * length_mm * depth_mm / 1e6;
}

double usual_litres(double width_mm, double length_mm) {
    constexpr double kSheet_mm2 = 240.0 * 300.0, kLeast = 0.5;
    constexpr double kNoise = 1e-9;  // keeps 1 L for the sheet itself from being rounded up to 1.1
    return std::max(kLeast, std::ceil(10 * width_mm * length_mm / kSheet_mm2 - kNoise) / 10);
}

DilutedBath diluted(double litres, double parts, double additive_ml_l) {
    const double total = 1000 * litres;
    const DilutedBath bath{total / (1 + parts), additive_ml_l * litres,
                           total - total / (1 + parts) - additive_ml_l * litres};
    if (bath.water_ml < 0)
        throw Error(Fault::usage, "1+" + decimal(parts, 1),
                    decimal(additive_ml_l, 1) + " ml/L of additive leave no room",
                    "at most " + decimal(1000 * parts / (1 + parts), 0) + " ml/L");
    return bath;
}

BleachPowders bleach_powders(const BleachBath& bath, double litres) {
    const double share = litres / (1 + bath.parts);
    return {bath.ferricyanide_g_l * share, bath.bromide_g_l * share};
}

}  // namespace fogproof::bleach
