// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "bleach/capacity.hpp"

#include <algorithm>

namespace fogproof::bleach {

double ferricyanide_for_silver_g(double silver_g) {
    return silver_g * kFerricyanideMolarMass / kSilverMolarMass;
}

double bromide_for_silver_g(double silver_g) {
    return silver_g * kBromideMolarMass / kSilverMolarMass;
}

double silver_g(LayerDensity mean, double area_m2) {
    return kSilverPerDensity_g_m2 * mean.value * area_m2;
}

double capacity_silver_g_l(const BleachBath& bath) {
    const double share = 1 / (1 + bath.parts);
    return share * std::min(bath.ferricyanide_g_l / ferricyanide_for_silver_g(1),
                            bath.bromide_g_l / bromide_for_silver_g(1));
}

}  // namespace fogproof::bleach
