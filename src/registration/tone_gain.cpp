// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/tone_gain.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/quantile.hpp"

namespace fogproof::registration {
namespace {

constexpr std::size_t kFewestGains = 20;
// Places whose lightness is so near count in full, and more of them where there are few. Judgement.
constexpr double kNear = 0.015;
constexpr std::size_t kPlacesAsked = 30;
constexpr double kFarthest = 1.5;  // of those asked for, in standard deviations
// Gains of two places of one tone differ by such a part of them beyond their noise. Judgement.
constexpr double kScatter = 0.25;
constexpr double kLeastGain = 0.2;  // of the median

}  // namespace

ToneGain::ToneGain(std::vector<GainSeen> places, double least) : places_(std::move(places)), least_(least) {}

std::optional<ToneGain> ToneGain::of(std::vector<GainSeen> places) {
    if (places.size() < kFewestGains) return std::nullopt;
    const auto middle = places.begin() + std::ptrdiff_t(places.size() / 2);
    std::ranges::nth_element(places, middle, {}, &GainSeen::gain);
    const double median = middle->gain;
    if (!(median > 0)) return std::nullopt;
    const double scatter = kScatter * median;
    for (GainSeen& place : places) place.variance += scatter * scatter;
    std::ranges::sort(places, {}, &GainSeen::tone);
    return ToneGain(std::move(places), kLeastGain * median);
}

double ToneGain::at(double tone) const {
    std::vector<double> away;
    for (const GainSeen& place : places_) away.push_back(std::abs(place.tone - tone));
    const std::size_t asked = std::min(kPlacesAsked, away.size() - 1);
    const double near = std::max(kNear, in_order(away, asked) / kFarthest);
    double sum = 0, weights = 0;
    for (const GainSeen& place : places_) {
        const double off = (place.tone - tone) / near, weight = std::exp(-off * off / 2) / place.variance;
        sum += weight * place.gain, weights += weight;
    }
    return std::max(least_, sum / weights);
}

}  // namespace fogproof::registration
