// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/enlarger/enlarger.hpp"

#include <cmath>

namespace fogproof {

double head_factor(const Enlarger& enlarger) {
    const double spread = (enlarger.anchor.magnification + 1) / (enlarger.setting.magnification + 1);
    const double stop = enlarger.anchor.f_number / enlarger.setting.f_number;
    return spread * spread * stop * stop;
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
    const double through_negative = transmitted(density, mean_transmitted, enlarger);
    for (const auto& exposure : exposures) add(through_negative, exposure);
    for (const auto& flash : flashes) add(1.0, flash);
    return light;
}

Seconds time_giving(LogExposure exposure, const Enlarger& enlarger) {
    return {std::pow(10.0, (exposure.value - std::log10(head_factor(enlarger))) / enlarger.reciprocity)};
}

LogExposure exposure_of(double log_seconds, const Enlarger& enlarger) {
    return {enlarger.reciprocity * log_seconds + std::log10(head_factor(enlarger))};
}

double stops_factor(double stops) {
    return std::exp2(stops);
}

}  // namespace fogproof
