// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "negative/tone_shape.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace fogproof::negative {
namespace {

constexpr double kLeastLight = 1e-4;  // light; far below what a scanner tells from none
constexpr double kWhite = 0.9985, kNoLight = 1e-6;

// A bell curve for each kind. Mean and spread are judgement, chosen on a dozen photographs and the negatives
// computed from them; tests/suspicion.sh shows how well they hold on others.
struct Usual {
    double mean, spread;
};

double log_likelihood(double value, Usual usual) {
    const double away = (value - usual.mean) / usual.spread;
    return -0.5 * away * away - std::log(usual.spread);
}

double favours(double value, Usual one, Usual other) {
    return log_likelihood(value, one) - log_likelihood(value, other);
}

}  // namespace

ToneShape tone_shape(const Histogram& histogram, std::span<const double> light) {
    std::vector<NegativeDensity> scale(light.size());
    for (std::size_t code = 0; code < std::min(light.size(), histogram.size()); ++code)
        if (histogram[code] > 0) scale[code] = {-std::log10(std::max(light[code], kLeastLight))};
    const Tones tones(histogram, scale);
    const auto at = [&](double share) { return tones.quantile(share).value; };
    ToneShape shape;
    shape.thinnest = std::max(at(0.001), 0.0);
    shape.middle = at(0.5);
    shape.densest = at(0.995);
    shape.range = at(0.99) - at(0.01);
    constexpr double kLeast = 0.02;
    shape.lean =
        std::log(std::max(at(0.99) - shape.middle, kLeast) / std::max(shape.middle - at(0.01), kLeast));
    const double all = double(std::accumulate(histogram.begin(), histogram.end(), std::uint64_t{0}));
    for (std::size_t code = 0; code < light.size(); ++code) {
        if (light[code] >= kWhite) shape.at_white += double(histogram[code]) / all;
        if (light[code] <= kNoLight) shape.at_black += double(histogram[code]) / all;
    }
    return shape;
}

double missing_codes(const Histogram& histogram) {
    constexpr std::ptrdiff_t kAround = 16;
    constexpr std::uint64_t kOften = 6;  // pixels a code: then hardly one in a hundred is missed by chance
    std::size_t step = 0, first = histogram.size();
    for (std::size_t code = 1; code + 1 < histogram.size(); ++code)  // the ends gather what was clipped
        if (histogram[code] > 0) {
            if (first < histogram.size()) step = std::gcd(step, code - first);
            first = std::min(first, code);
        }
    if (step == 0) return 0;
    std::vector<std::uint64_t> counts;
    for (std::size_t code = first; code + 1 < histogram.size(); code += step)
        counts.push_back(histogram[code]);
    while (!counts.empty() && counts.back() == 0) counts.pop_back();
    std::size_t looked_at = 0, missing = 0;
    std::uint64_t around = 0;
    const auto count = std::ptrdiff_t(counts.size());
    for (std::ptrdiff_t i = -kAround; i < count; ++i) {
        if (i + kAround < count) around += counts[std::size_t(i + kAround)];
        if (i - kAround > 0) around -= counts[std::size_t(i - kAround - 1)];
        if (i < kAround || i + kAround >= count || around < kOften * (2 * kAround + 1)) continue;
        ++looked_at;
        missing += counts[std::size_t(i)] == 0;
    }
    constexpr std::size_t kEnough = 30;
    return looked_at < kEnough ? 0 : double(missing) / double(looked_at);
}

// Film holds a scene on a straight line of a slope below one with a toe, so its tones lean to the dense side
// and end in an even base. Pictures are made to reach white, and their shadows trail off.
double likeness_of_a_positive(const ToneShape& shape) {
    return favours(shape.lean, {0.8, 0.65}, {-0.7, 0.55}) +
           favours(std::min(shape.range, 2.5), {1.5, 0.7}, {0.95, 0.35}) +
           favours(shape.thinnest, {0.1, 0.12}, {0.5, 0.25});
}

double likeness_of_gamma(const ToneShape& shape, std::optional<NegativeDensity> clear,
                         std::optional<NegativeDensity> rim) {
    double sum = 0;
    if (clear)
        sum += favours(clear->value, {0.13, 0.05}, {0.28, 0.10}) +
               favours(shape.densest - clear->value, {0.62, 0.18}, {1.30, 0.35});
    else
        sum += favours(shape.thinnest, {0.25, 0.12}, {0.6, 0.3}) +
               favours(shape.densest - shape.thinnest, {0.45, 0.18}, {0.9, 0.3});
    // An opaque holder: linear codes show it some thousand times darker than the thinnest tone.
    constexpr double kHolder = 0.9;
    if (rim && rim->value > kHolder) sum += favours(rim->value, {1.6, 0.3}, {2.8, 0.4});
    return sum;
}

}  // namespace fogproof::negative
