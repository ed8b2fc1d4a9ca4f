// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/enlarger/enlarger.hpp"

#include <cmath>

namespace fogproof::enlarger {
namespace {

// Lenses are marked with powers of the root of two, rounded: 11 stands for 11.31 (ISO 517). Between whole
// stops a number counts as it is written.
double aperture_of(double marked) {
    constexpr double kRounding = 0.03;
    const double whole = std::exp2(std::round(2 * std::log2(marked)) / 2);
    return std::abs(marked / whole - 1) < kRounding ? whole : marked;
}

}  // namespace

double head_factor(const Enlarger& enlarger) {
    const double spread = (enlarger.anchor.magnification + 1) / (enlarger.setting.magnification + 1);
    const double stop = aperture_of(enlarger.anchor.f_number) / aperture_of(enlarger.setting.f_number);
    return spread * spread * stop * stop * std::pow(10.0, enlarger.log_light_today);
}

double log_gain_through(double carrier_density, const Enlarger& enlarger) {
    const Carrier& anchor = enlarger.anchor_carrier;
    return anchor.held == Carrier::Held::density ? anchor.density - carrier_density : 0;
}

double log_gain_through_film(const Enlarger& enlarger) {
    return enlarger.base_fog ? log_gain_through(*enlarger.base_fog, enlarger) : 0;
}

double log_gain_without_film(const Enlarger& enlarger) {
    // An open gate passes more light than an anchor through clear film, by exactly that film's base + fog.
    const bool by_negative = enlarger.anchor_carrier.held != Carrier::Held::density;
    return by_negative ? enlarger.base_fog.value_or(0) : log_gain_through(0, enlarger);
}

double transmitted(NegativeDensity density, double mean_transmitted, const Enlarger& enlarger) {
    const double direct = std::pow(10.0, -enlarger.callier * density.value);
    return (1 - enlarger.flare) * direct + enlarger.flare * mean_transmitted;
}

EaselLight light_at_easel(NegativeDensity density, double mean_transmitted, const Enlarger& enlarger,
                          std::span<const Exposure> exposures, std::span<const Exposure> flashes) {
    const double head = head_factor(enlarger);
    EaselLight light;
    const auto add = [&](double transmittance, const Exposure& exposure) {
        if (exposure.time.value <= 0) return;
        const double h = head * transmittance * std::pow(exposure.time.value, enlarger.reciprocity);
        light.blue += h * exposure.filter.blue;
        light.green += h * exposure.filter.green;
    };
    const double through_negative =
        std::pow(10.0, log_gain_through_film(enlarger)) * transmitted(density, mean_transmitted, enlarger);
    for (const auto& exposure : exposures) add(through_negative, exposure);
    const double open_gate = std::pow(10.0, log_gain_without_film(enlarger));
    for (const auto& flash : flashes) add(open_gate, flash);
    return light;
}

namespace {

Seconds time_with(double log_gain, LogExposure exposure, const Enlarger& enlarger) {
    const double at_head = exposure.value - std::log10(head_factor(enlarger)) - log_gain;
    return {std::pow(10.0, at_head / enlarger.reciprocity)};
}

}  // namespace

Seconds time_giving(LogExposure exposure, const Enlarger& enlarger) {
    return time_with(log_gain_through_film(enlarger), exposure, enlarger);
}

Seconds flash_giving(LogExposure exposure, const Enlarger& enlarger) {
    return time_with(log_gain_without_film(enlarger), exposure, enlarger);
}

Seconds time_at_anchor(LogExposure exposure, const Enlarger& enlarger) {
    return {std::pow(10.0, exposure.value / enlarger.reciprocity)};
}

LogExposure exposure_of(double log_seconds, const Enlarger& enlarger) {
    return {enlarger.reciprocity * log_seconds + std::log10(head_factor(enlarger)) +
            log_gain_through_film(enlarger)};
}

double stops_factor(double stops) {
    return std::exp2(stops);
}

}  // namespace fogproof::enlarger
