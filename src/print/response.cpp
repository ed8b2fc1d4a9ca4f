// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/response.hpp"

#include <cmath>

namespace fogproof {
namespace {

constexpr double kFirst = -4, kLast = 5, kStep = 0.02;

}  // namespace

Response::Response(const PaperModel& paper, const Enlarger& enlarger, const PrintSteps& steps)
    : model_(paper, enlarger, steps, 0.0) {
    unit_ = {0, 0};
    for (const auto& exposure : steps.exposures) {
        const double weight = std::pow(exposure.time.value, enlarger.reciprocity);
        unit_.blue += weight * exposure.filter.blue;
        unit_.green += weight * exposure.filter.green;
    }
    flash_ = light_at_easel({0}, 0, enlarger, {}, steps.flashes);
    white_lightness_ = model_.border().lab.l;
    minimum_ = model_.lit(flash_).density;
    maximum_ = patch({12}).density;

    std::vector<double> x, lightness, density;
    for (double log_h = kFirst; log_h <= kLast + kStep / 2; log_h += kStep) {
        const Patch tone = patch({log_h});
        x.push_back(log_h);
        lightness.push_back(tone.lab.l);
        density.push_back(tone.density.value);
    }
    lightness_.emplace(x, std::move(lightness));
    density_.emplace(x, std::move(density));
}

Patch Response::patch(LogExposure exposure) const {
    const double h = std::pow(10.0, exposure.value);
    return model_.lit({flash_.blue + h * unit_.blue, flash_.green + h * unit_.green});
}

double Response::lightness(LogExposure exposure) const {
    return (*lightness_)(exposure.value);
}

PrintDensity Response::density(LogExposure exposure) const {
    return {(*density_)(exposure.value)};
}

std::optional<PaperNumbers> Response::numbers() const {
    return paper_numbers([this](LogExposure h) { return patch(h).density; }, minimum_, maximum_);
}

}  // namespace fogproof
