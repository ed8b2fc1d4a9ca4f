// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/trial_prints.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>

namespace fogproof::scan {
namespace {

constexpr std::size_t kSlopes = 8192;
constexpr std::size_t kFiner = 2;  // rows a step, so that rounding shows less than what is looked for

// Codes that one of light is worth: the slope of the code curve.
std::vector<float> code_slopes() {
    std::vector<float> slopes;
    for (std::size_t i = 0; i <= kSlopes; ++i) {
        const double v = double(i) / kSlopes;
        slopes.push_back(float(255 * (v <= 0.0031308 ? 12.92 : 1.055 / 2.4 * std::pow(v, 1 / 2.4 - 1))));
    }
    return slopes;
}

// A group of prints; Eigen takes several at a time.
using Together = Eigen::Array<float, 16, 1>;
template <class Values>
Eigen::Map<const Together> group_of(const Values& values, std::size_t at = 0) {
    return Eigen::Map<const Together>(values.data() + at);
}

}  // namespace

TrialPrints::TrialPrints(const std::vector<std::vector<float>>& curves) {
    if (curves.empty()) return;
    across_ = (curves.size() + kTogether - 1) / kTogether * kTogether;
    const std::size_t steps = curves.front().size();
    rows_.resize(across_ * (kFiner * (steps - 1) + 1));
    for (std::size_t i = 0; i < across_; ++i) {
        const std::vector<float>& curve = curves[std::min(i, curves.size() - 1)];
        for (std::size_t row = 0; row < rows_.size() / across_; ++row) {
            const std::size_t light = row / kFiner;
            const float on = float(row % kFiner) / kFiner;
            rows_[row * across_ + i] =
                on > 0 ? curve[light] + on * (curve[light + 1] - curve[light]) : curve[light];
        }
    }
    slopes_ = code_slopes();
}

std::size_t TrialPrints::row(double light) const {
    const auto last = std::ptrdiff_t(rows_.size() / across_) - 1;
    return std::size_t(std::clamp(std::ptrdiff_t(kFiner * light + 0.5), std::ptrdiff_t{0}, last)) * across_;
}

CellTrial::CellTrial(const TrialPrints& prints)
    : prints_(prints), exact_(prints.across_), codes_(prints.across_) {
    for (std::size_t i = 0; i < prints.across_; i += TrialPrints::kTogether) order_.push_back(i);
}

void CellTrial::take(std::span<const SharedLight> lights) {
    rows_.clear();
    shares_.clear();
    for (const SharedLight& each : lights) {
        rows_.push_back(prints_.row(each.light));
        shares_.push_back(float(each.share));
    }
}

CellTrial::Sums CellTrial::sums(std::size_t group) const {
    static_assert(Together::SizeAtCompileTime == TrialPrints::kTogether);
    Sums sums;
    Eigen::Map<Together> together(sums.data());
    together.setZero();
    for (std::size_t k = 0; k < rows_.size(); ++k)
        together += shares_[k] * group_of(prints_.rows_, rows_[k] + group);
    return sums;
}

void CellTrial::of(std::span<const SharedLight> all) {
    take(all);
    for (const std::size_t group : order_) {
        const Sums exact = sums(group);
        for (std::size_t i = 0; i < TrialPrints::kTogether; ++i) {
            exact_[group + i] = exact[i];
            codes_[group + i] = prints_.slopes_[std::size_t(std::clamp(exact[i], 0.f, 1.f) * kSlopes)];
        }
    }
}

double CellTrial::off(std::span<const SharedLight> few, double limit) {
    take(few);
    double worst = 0;
    for (std::size_t& group : order_) {
        const Together codes =
            (group_of(sums(group)) - group_of(exact_, group)).abs() * group_of(codes_, group);
        worst = std::max(worst, double(codes.maxCoeff()));
        if (worst > limit) {
            // What spoils one try is likely to spoil the next, and is asked first then.
            std::swap(group, order_.front());
            break;
        }
    }
    return worst;
}

}  // namespace fogproof::scan
