// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/pack/pack.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "pack/schema.hpp"
#include "pack/toml_file.hpp"

namespace fogproof::pack {

std::string filter_number_name(const PackFilter& filter, std::string_view key) {
    return "filter." + shortest(filter.grade) + "." + std::string(key);
}

double FitRecord::correlated(std::size_t a, std::size_t b) const {
    if (a == b) return 1;
    if (a < b) std::swap(a, b);
    return correlation[a * (a - 1) / 2 + b];
}

Knowledge Pack::known(const std::string& key) const {
    const auto found = knowledge.find(key);
    return found == knowledge.end() ? Knowledge{} : found->second;
}

// Judgement: a smooth surface of index 1.53 lit at 45 degrees throws almost nothing towards the eye, a matt
// one spreads its four percent evenly. The blacks are those of one silver (2.05 under gloss) below each.
SurfaceDefaults surface_defaults(Surface surface) {
    switch (surface) {
        case Surface::gloss:
            return {0.005, 2.05};
        case Surface::semi_matt:
            return {0.016, 1.70};
        case Surface::matt:
            return {0.03, 1.47};
    }
    return {0.005, 2.05};
}

double surface_light_over(Surface surface, double black_density) {
    constexpr double kMostOfBlack = 0.9;
    return std::min(surface_defaults(surface).light, kMostOfBlack * std::pow(10.0, -black_density));
}

RestrainerDefaults restrainer_defaults(RestrainerAgent agent) {
    if (agent == RestrainerAgent::benzotriazole) return {1, 10};
    const Pack usual;
    return {usual.darkroom.restrainer_stock_percent, usual.restrainer.half_ml_l};
}

HeadDefaults head_defaults(Head head) {
    switch (head) {
        case Head::diffuser:
            return {1.025, 0.015};
        case Head::condenser:
            return {1.35, 0.08};
        case Head::unknown:
            break;
    }
    return {Enlarger{}.callier, 0.1};
}

}  // namespace fogproof::pack
