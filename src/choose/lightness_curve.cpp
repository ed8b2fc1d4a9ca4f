// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/lightness_curve.hpp"

#include <algorithm>
#include <cmath>

#include "fogproof/bleach/bleach.hpp"
#include "fogproof/sheet/colour.hpp"

namespace fogproof {
namespace {

constexpr double kStep = 0.04;  // log10 exposure

}  // namespace

LightnessCurve::LightnessCurve(const PaperModel& paper, const Developer& developer, const Filter& filter,
                               double bleach_dose, double from, double to)
    : from_(from - kStep) {
    const auto nodes = std::size_t((to - from_) / kStep) + 4;
    const auto lightness_in = [&](EaselLight light) {
        const BleachedSilver thinned =
            bleached(developer.developed(light), paper.bleach.starvation, bleach_dose, paper.bleach.order);
        return lab(xyz_under_d50(paper.sheet.reflectance({thinned.left, {0}, thinned.lost}))).l;
    };
    border_ = lightness_in({});
    for (std::size_t i = 0; i < nodes; ++i) {
        const double h = std::pow(10.0, from_ + double(i) * kStep);
        lightness_.push_back(lightness_in({h * filter.blue, h * filter.green}));
    }
}

double LightnessCurve::from() const {
    return from_ + kStep;
}

double LightnessCurve::to() const {
    return from_ + kStep * double(lightness_.size() - 3);
}

// Cubic through four neighbours (Catmull and Rom 1974).
double LightnessCurve::operator()(double log_h) const {
    const double place = std::clamp((log_h - from_) / kStep, 1.0, double(lightness_.size()) - 3 - 1e-9);
    const auto cell = std::size_t(place);
    const double t = place - double(cell);
    const double *l = &lightness_[cell - 1], a = l[0], b = l[1], c = l[2], d = l[3];
    return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
}

}  // namespace fogproof
