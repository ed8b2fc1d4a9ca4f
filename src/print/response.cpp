// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "print/response.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace fogproof::print {
namespace {

constexpr double kTableStep = 0.015;
constexpr LogExposure kAllLight{12};  // full density on any paper, whatever its speed

}  // namespace

Response::Response(const PaperModel& paper, const Enlarger& enlarger, const PrintSteps& steps,
                   double edge_fog)
    : sheet_(paper, steps.develop, steps.finishing), place_{0, edge_fog > 0 ? sheet_.more_fog(edge_fog) : 0} {
    for (const auto& exposure : steps.exposures) {
        const double weight = std::pow(exposure.time.value, enlarger.reciprocity);
        unit_.blue += weight * exposure.filter.blue;
        unit_.green += weight * exposure.filter.green;
    }
    flash_ = light_at_easel({0}, 0, enlarger, {}, steps.flashes);
    border_ = lit(sheet_, {});
    minimum_ = lit(sheet_, flash_).density;
    maximum_ = density(kAllLight);
}

Patch Response::lit(const TreatedSheet& sheet, EaselLight light) const {
    return place_.fog > 0 ? sheet.lit(light, place_) : sheet.lit(light);
}

Patch Response::patch(LogExposure exposure) const {
    const double h = std::pow(10.0, exposure.value);
    return lit(sheet_, {flash_.blue + h * unit_.blue, flash_.green + h * unit_.green});
}

std::vector<PrintDensity> Response::quick_densities(std::span<const LogExposure> exposures) const {
    const TreatedSheet quick = sheet_.for_many_patches();
    std::vector<PrintDensity> densities;
    for (const LogExposure exposure : exposures) {
        const double h = std::pow(10.0, exposure.value);
        densities.push_back(
            quick.quick_density({flash_.blue + h * unit_.blue, flash_.green + h * unit_.green}, place_));
    }
    return densities;
}

Patch Response::beside(EaselLight staying, double transmittance, LogExposure exposure) const {
    const double h = std::pow(10.0, exposure.value);
    return lit(sheet_, {flash_.blue + transmittance * (staying.blue + h * unit_.blue),
                        flash_.green + transmittance * (staying.green + h * unit_.green)});
}

std::optional<PaperNumbers> Response::numbers() const {
    return paper_numbers([this](LogExposure h) { return density(h); }, minimum_, maximum_);
}

MonotoneCurve Response::lightness_between(LogExposure from, LogExposure to) const {
    const auto steps = std::max<std::size_t>(4, std::size_t((to.value - from.value) / kTableStep) + 1);
    const TreatedSheet quick = sheet_.for_many_patches();
    std::vector<double> x, lightness;
    for (std::size_t i = 0; i <= steps; ++i) {
        x.push_back(from.value + (to.value - from.value) * double(i) / double(steps));
        const double h = std::pow(10.0, x.back());
        lightness.push_back(lit(quick, {flash_.blue + h * unit_.blue, flash_.green + h * unit_.green}).lab.l);
    }
    return {std::move(x), std::move(lightness)};
}

}  // namespace fogproof::print
