// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/lightness_curve.hpp"

#include <algorithm>
#include <cmath>

#include "base/interpolation.hpp"

namespace fogproof::choose {
namespace {

constexpr double kStep = 0.04;  // log10 exposure

}  // namespace

LightnessCurve::LightnessCurve(const PaperModel& paper, const Developer& developer, const Filter& filter,
                               const Finishing& finishing, double from, double to)
    : from_(from - kStep) {
    const auto nodes = std::size_t((to - from_) / kStep) + 4;
    const auto lightness_in = [&](EaselLight light) {
        return paper.sheet.quick_lightness(finished(paper, developer, light, finishing));
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

double LightnessCurve::operator()(double log_h) const {
    const double place = std::clamp((log_h - from_) / kStep, 1.0, double(lightness_.size()) - 3 - 1e-9);
    const auto cell = std::size_t(place);
    const double* l = &lightness_[cell - 1];
    return cubic_between(l[0], l[1], l[2], l[3], place - double(cell));
}

}  // namespace fogproof::choose
