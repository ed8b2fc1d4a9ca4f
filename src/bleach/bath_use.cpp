// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "bleach/bath_use.hpp"

#include <algorithm>

namespace fogproof::bleach {

BathUse::BathUse(const BleachBath& bath, double litres)
    : bath_(bath), litres_(litres), capacity_g_(capacity_silver_g_l(bath) * litres) {}

bool BathUse::takes(double silver_g) const {
    return used_g_ + silver_g <= usable_silver_g();
}

double BathUse::used() const {
    if (capacity_g_ > 0) return used_g_ / capacity_g_;
    return used_g_ > 0 ? 1 : 0;
}

BleachBath BathUse::as_it_is() const {
    constexpr double kDead = 0.05;  // less than this is no bath any more
    const double fresh = working_strength_g_l(bath_) * litres_;
    BleachBath bath = bath_;
    bath.ferricyanide_g_l *= std::max(kDead, 1 - ferricyanide_for_silver_g(used_g_) / fresh);
    return bath;
}

}  // namespace fogproof::bleach
