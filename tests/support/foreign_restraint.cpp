// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "support/foreign_restraint.hpp"

#include <cmath>

namespace fogproof::tests::foreign {

Restraint::Restraint(unsigned seed) : random_(seed) {
    speed_law_ = std::uniform_int_distribution(0, 2)(random_);
    fog_law_ = std::uniform_int_distribution(0, 2)(random_);
    per_ml_ = between(0.001, 0.012);
    most_ = between(0.1, 0.6), middle_ = between(5, 40);
    own_bromide_ = between(3, 20), per_decade_ = between(0.15, 0.7);
    floor_ = between(0.05, 0.3), adsorbed_ = between(0.03, 0.3);
    power_ = between(0.8, 2.5), decay_ = between(8, 40);
}

double Restraint::speed_lost(double c) const {
    switch (speed_law_) {
        case 0:
            return per_ml_ * c;  // every grain wants so much more light per bromide ion
        case 1:
            return most_ * c / (c + middle_);  // adsorption that saturates (Langmuir)
        // Nernst: the silver potential goes with the logarithm of all bromide, the developer's own
        // included.
        default:
            return per_decade_ * std::log10((own_bromide_ + c) / own_bromide_);
    }
}

double Restraint::fog_left(double c) const {
    switch (fog_law_) {
        case 0:
            return floor_ + (1 - floor_) / (1 + adsorbed_ * c);  // some centres are out of its reach
        case 1:
            return std::pow(1 + c / own_bromide_, -power_);  // a power of all bromide
        default:
            return floor_ + (1 - floor_) * std::exp(-c / decay_);
    }
}

}  // namespace fogproof::tests::foreign
