// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <cmath>
#include <utility>

#include "fogproof/emulsion/emulsion.hpp"

namespace fogproof::emulsion {
namespace {

// Time at nominal temperature that does the same work.
double nominal_time(const Development& development, const DevelopStep& step) {
    return step.time_s * std::exp(development.per_kelvin * (step.temperature_c - development.nominal_c));
}

// Density of one developed grain population at a time, relative to nominal.
double growth(const Development& development, double time_s) {
    const auto at = [&](double t) {
        return t > development.induction_s ? -std::expm1(-(t - development.induction_s) / development.rise_s)
                                           : 0.0;
    };
    return at(time_s) / at(development.nominal_s);
}

// Log exposure lost, as a power of 1 + doses that is the logarithm where the bend is nil (Box and Cox 1964).
// Bent around the amount that halves the fog, near which people work.
double speed_lost(const Restrainer& restrainer, double doses) {
    constexpr double kStraight = 1e-6, kMiddle = 1;
    const double bend = restrainer.speed_bend;
    if (std::abs(bend) < kStraight) return restrainer.speed_loss * std::log10(1 + doses);
    return restrainer.speed_loss * std::log10(1 + kMiddle) * std::expm1(bend * std::log1p(doses)) /
           std::expm1(bend * std::log1p(kMiddle));
}

}  // namespace

Developer::Developer(const Emulsion& emulsion, const DevelopStep& step)
    : Developer(emulsion, step, GrainPopulation(emulsion.grains)) {}

Developer::Developer(const Emulsion& emulsion, const DevelopStep& step, GrainPopulation population)
    : population_(std::move(population)) {
    const Development& development = emulsion.development;
    const Restrainer& restrainer = emulsion.restrainer;
    const double time = nominal_time(development, step);
    const double doses = step.restrainer_ml_l / restrainer.half_ml_l;
    if (time <= 0) {
        log_threshold_ = emulsion.grains.log_threshold;
        fog_ = amplitude_ = 0;
        return;
    }
    const double relative_time = time / development.nominal_s;
    const double free_fog = emulsion.fog.share * std::pow(relative_time, emulsion.fog.time_exponent);
    const double left = 1 / (1 + std::pow(doses, restrainer.steepness));
    free_fog_ = free_fog * (restrainer.fog_floor + (1 - restrainer.fog_floor) * left);
    fog_ = std::min(1.0, free_fog_);
    // One age fogs the edge and the middle: time and restrainer do the same to both.
    edge_fog_ = emulsion.fog.edge * std::pow(relative_time, emulsion.fog.time_exponent) *
                (restrainer.fog_floor + (1 - restrainer.fog_floor) * left);
    log_threshold_ = emulsion.grains.log_threshold + speed_lost(restrainer, doses) -
                     development.speed_gain * std::log10(relative_time);
    amplitude_ = emulsion.grains.max_density * growth(development, time);
}

DevelopedSilver Developer::developed(EaselLight light) const {
    return with_share(population_.developable(light, log_threshold_));
}

double Developer::more_fog(double level) const {
    if (fog_ >= 1) return 0;
    return 1 - (1 - std::min(1.0, free_fog_ + level * edge_fog_)) / (1 - fog_);
}

DevelopedSilver Developer::with_share(double exposed) const {
    return {{amplitude_ * (1 - (1 - exposed) * (1 - fog_))}};
}

}  // namespace fogproof::emulsion
