// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/bleach/bath_use.hpp"

#include <algorithm>
#include <cmath>

namespace fogproof {

BathUse::BathUse(const BleachBath& bath, double litres)
    : capacity_g_(capacity_silver_g_l(bath) * litres), ferricyanide_g_(working_strength_g_l(bath) * litres) {}

bool BathUse::takes(double silver_g) const {
    return used_g_ + silver_g <= usable_silver_g();
}

double BathUse::used() const {
    if (capacity_g_ > 0) return used_g_ / capacity_g_;
    return used_g_ > 0 ? 1 : 0;
}

double BathUse::slowed(const BleachRate& rate) const {
    constexpr double kDead = 0.05;  // of the ferricyanide: less than this is no bath any more
    const double left = 1 - ferricyanide_for_silver_g(used_g_) / ferricyanide_g_;
    return std::pow(std::max(left, kDead), -rate.dilution_exponent);
}

}  // namespace fogproof
