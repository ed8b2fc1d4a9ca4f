// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/uncertainty.hpp"

#include <algorithm>
#include <cmath>

namespace fogproof::pack {

double deviation_of(const Pack& pack, const PackNumber& row) {
    const Knowledge known = pack.known(row.name());
    if (known.deviation) return *known.deviation;
    return known.origin == Origin::assumed ? row.doubt : 0;
}

bool is_moved(const Pack& pack, const PackNumber& row) {
    if (row.section == "scatter" || (row.section == "speed" && !pack.darkroom.anchored)) return false;
    return applies(pack, row);
}

double unexplained_scatter(const Pack& pack) {
    return std::hypot(pack.law_scatter, pack.sheet_scatter);
}

double correlation(const FitRecord& fit, const std::string& a, const std::string& b) {
    if (a == b) return 1;
    const auto place = [&](const std::string& name) {
        const auto found = std::ranges::find(fit.numbers, name, &FitRecord::Number::name);
        return std::size_t(found - fit.numbers.begin());
    };
    const std::size_t i = place(a), j = place(b);
    return i < fit.numbers.size() && j < fit.numbers.size() ? fit.correlated(i, j) : 0;
}

}  // namespace fogproof::pack
