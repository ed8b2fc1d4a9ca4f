// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/trial_prints.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <array>
#include <cmath>

namespace fogproof::scan {
namespace {

constexpr std::size_t kSlopes = 8192;
constexpr std::size_t kFiner = 2;  // rows a step, so that rounding shows less than what is looked for

// Codes that one of light is worth: the slope of the code curve.
float code_slope(float light) {
    static const auto slopes = [] {
        std::array<float, kSlopes + 1> made{};
        for (std::size_t i = 0; i <= kSlopes; ++i) {
            const double v = double(i) / kSlopes;
            made[i] = float(255 * (v <= 0.0031308 ? 12.92 : 1.055 / 2.4 * std::pow(v, 1 / 2.4 - 1)));
        }
        return made;
    }();
    return slopes[std::size_t(std::clamp(light, 0.f, 1.f) * kSlopes)];
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
    slopes_.resize(rows_.size());
    std::ranges::transform(rows_, slopes_.begin(), code_slope);
}

std::size_t TrialPrints::row(double light) const {
    const auto last = std::ptrdiff_t(rows_.size() / across_) - 1;
    return std::size_t(std::clamp(std::ptrdiff_t(kFiner * light + 0.5), std::ptrdiff_t{0}, last)) * across_;
}

CellTrial::CellTrial(const TrialPrints& prints)
    : prints_(prints), exact_(prints.across_), codes_(prints.across_) {}

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

void CellTrial::of(std::span<const SharedLight> all, double limit) {
    take(all);
    telling_.clear();
    const std::size_t dark = rows_.front(), bright = rows_.back();
    for (std::size_t group = 0; group < exact_.size(); group += TrialPrints::kTogether) {
        // Where the darkest and the brightest light all but agree, so does whatever lies between. The code
        // curve is steepest at the darker one.
        const auto there = [&](const std::vector<float>& values, std::size_t row) {
            return group_of(values, row + group);
        };
        const Together apart = (there(prints_.rows_, dark) - there(prints_.rows_, bright)).abs() *
                               there(prints_.slopes_, dark).max(there(prints_.slopes_, bright));
        if (apart.maxCoeff() <= limit) continue;
        telling_.push_back(group);
        const Sums exact = sums(group);
        for (std::size_t i = 0; i < TrialPrints::kTogether; ++i) {
            exact_[group + i] = exact[i];
            codes_[group + i] = code_slope(exact[i]);
        }
    }
    worst_at_ = telling_.empty() ? 0 : telling_[telling_.size() / 2];
}

double CellTrial::off(std::span<const SharedLight> few, double limit) {
    take(few);
    double worst = 0;
    const auto try_on = [&](std::size_t group) {
        const Together codes =
            (group_of(sums(group)) - group_of(exact_, group)).abs() * group_of(codes_, group);
        if (const double most = double(codes.maxCoeff()); most > worst) {
            worst = most;
            worst_at_ = group;
        }
    };
    if (telling_.empty()) return 0;
    const std::size_t first = worst_at_;
    try_on(first);
    for (const std::size_t group : telling_) {
        if (worst > limit) break;
        if (group != first) try_on(group);
    }
    return worst;
}

}  // namespace fogproof::scan
