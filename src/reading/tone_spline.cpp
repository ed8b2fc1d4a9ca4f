// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/tone_spline.hpp"

#include <algorithm>

namespace fogproof::reading {

ToneSpline::ToneSpline(double low, double high)
    : numbers(Eigen::VectorXd::Zero(kNumbers)), low_(low), step_((high - low) / (kNumbers - 3)) {}

ToneSpline::At ToneSpline::at(double over_paper) const {
    const double place = std::clamp((over_paper - low_) / step_, 0.0, kNumbers - 3 - 1e-9);
    const int first = int(place);
    const double u = place - first, v = 1 - u;
    return {first,
            {v * v * v / 6, (3 * u * u * u - 6 * u * u + 4) / 6, (3 * v * v * v - 6 * v * v + 4) / 6,
             u * u * u / 6},
            {-v * v / (2 * step_), (3 * u * u - 4 * u) / (2 * step_), -(3 * v * v - 4 * v) / (2 * step_),
             u * u / (2 * step_)}};
}

double ToneSpline::sum(const At& at, const std::array<double, 4>& by) const {
    double value = 0;
    for (int i = 0; i < 4; ++i) value += numbers[at.first + i] * by[std::size_t(i)];
    return value;
}

Eigen::MatrixXd ToneSpline::bends() const {
    Eigen::MatrixXd second = Eigen::MatrixXd::Zero(kNumbers - 2, kNumbers);
    for (int i = 0; i + 2 < kNumbers; ++i) second(i, i) = second(i, i + 2) = 1, second(i, i + 1) = -2;
    return second.transpose() * second / (step_ * step_ * step_);
}

}  // namespace fogproof::reading
