// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/interpolation.hpp"

#include <algorithm>
#include <stdexcept>

namespace fogproof::base {

MonotoneCurve::MonotoneCurve(std::vector<double> x, std::vector<double> y)
    : x_(std::move(x)), y_(std::move(y)), slope_(x_.size()) {
    const std::size_t n = x_.size();
    if (n < 4 || y_.size() != n) throw std::invalid_argument("a monotone curve needs at least four points");
    std::vector<double> h(n - 1), delta(n - 1);
    for (std::size_t i = 0; i + 1 < n; ++i) {
        h[i] = x_[i + 1] - x_[i];
        if (!(h[i] > 0)) throw std::invalid_argument("abscissae of a monotone curve must rise");
        delta[i] = (y_[i + 1] - y_[i]) / h[i];
    }
    for (std::size_t i = 1; i + 1 < n; ++i) {
        if (delta[i - 1] * delta[i] <= 0) continue;
        const double w1 = 2 * h[i] + h[i - 1], w2 = h[i] + 2 * h[i - 1];
        slope_[i] = (w1 + w2) / (w1 / delta[i - 1] + w2 / delta[i]);
    }
    slope_[0] = delta[0];
    slope_[n - 1] = delta[n - 2];
}

double MonotoneCurve::operator()(double x) const {
    if (!(x > x_.front())) return y_.front();
    if (x >= x_.back()) return y_.back();
    return within(std::size_t(std::upper_bound(x_.begin(), x_.end(), x) - x_.begin()) - 1, x);
}

double MonotoneCurve::operator()(double x, std::size_t guess) const {
    if (!(x > x_.front()) || x >= x_.back()) return (*this)(x);
    guess = std::min(guess, x_.size() - 2);
    if (x < x_[guess] && guess > 0) --guess;
    if (x >= x_[guess + 1] && guess + 2 < x_.size()) ++guess;
    return x >= x_[guess] && x < x_[guess + 1] ? within(guess, x) : (*this)(x);
}

double MonotoneCurve::within(std::size_t i, double x) const {
    const double h = x_[i + 1] - x_[i], t = (x - x_[i]) / h, u = 1 - t;
    return y_[i] * u * u * (1 + 2 * t) + y_[i + 1] * t * t * (1 + 2 * u) +
           h * t * u * (slope_[i] * u - slope_[i + 1] * t);
}

}  // namespace fogproof::base
