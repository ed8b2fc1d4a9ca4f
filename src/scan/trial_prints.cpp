// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/trial_prints.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace fogproof::scan {
namespace {

constexpr std::size_t kSlopes = 8192;
constexpr std::size_t kFiner = 2;  // rows a step, so that rounding shows less than what is looked for

// Codes that one of light is worth, by light: the slope of the code curve.
const std::array<float, kSlopes + 1>& code_slopes() {
    static const auto slopes = [] {
        std::array<float, kSlopes + 1> made{};
        for (std::size_t i = 0; i <= kSlopes; ++i) {
            const double v = double(i) / kSlopes;
            made[i] = float(255 * (v <= 0.0031308 ? 12.92 : 1.055 / 2.4 * std::pow(v, 1 / 2.4 - 1)));
        }
        return made;
    }();
    return slopes;
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
}

const float* TrialPrints::row(double light) const {
    const auto last = std::ptrdiff_t(rows_.size() / across_) - 1;
    return rows_.data() +
           std::size_t(std::clamp(std::ptrdiff_t(kFiner * light + 0.5), std::ptrdiff_t{0}, last)) * across_;
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

CellTrial::Sums CellTrial::sums(std::size_t from) const {
    Sums sums{};
    for (std::size_t k = 0; k < rows_.size(); ++k) {
        const float* const row = rows_[k] + from;
        const float share = shares_[k];
        for (std::size_t i = 0; i < TrialPrints::kTogether; ++i) sums[i] += share * row[i];
    }
    return sums;
}

void CellTrial::of(std::span<const SharedLight> all, double limit) {
    constexpr std::size_t kTogether = TrialPrints::kTogether;
    const auto& slopes = code_slopes();
    const auto slope = [&](float light) {
        return slopes[std::size_t(std::clamp(light, 0.f, 1.f) * kSlopes)];
    };
    take(all);
    telling_.clear();
    for (std::size_t from = 0; from < exact_.size(); from += kTogether) {
        // Where the darkest and the brightest light all but agree, so does whatever lies between.
        const float *const dark = rows_.front() + from, *const bright = rows_.back() + from;
        float most = 0;
        for (std::size_t i = 0; i < kTogether; ++i)
            most = std::max(most, std::abs(dark[i] - bright[i]) * slope(std::min(dark[i], bright[i])));
        if (most <= limit) continue;
        telling_.push_back(from);
        const Sums exact = sums(from);
        for (std::size_t i = 0; i < kTogether; ++i) {
            exact_[from + i] = exact[i];
            codes_[from + i] = slope(exact[i]);
        }
    }
    worst_at_ = telling_.empty() ? 0 : telling_[telling_.size() / 2];
}

double CellTrial::off(std::span<const SharedLight> few, double limit) {
    constexpr std::size_t kTogether = TrialPrints::kTogether;
    take(few);
    double worst = 0;
    const auto try_on = [&](std::size_t from) {
        Sums codes = sums(from);
        for (std::size_t i = 0; i < kTogether; ++i)
            codes[i] = std::abs(codes[i] - exact_[from + i]) * codes_[from + i];
        const float most = std::ranges::max(codes);
        if (most > worst) {
            worst = most;
            worst_at_ = from;
        }
    };
    if (telling_.empty()) return 0;
    const std::size_t first = worst_at_;
    try_on(first);
    for (const std::size_t from : telling_) {
        if (worst > limit) break;
        if (from != first) try_on(from);
    }
    return worst;
}

}  // namespace fogproof::scan
