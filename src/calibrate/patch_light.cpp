// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "calibrate/patch_light.hpp"

#include <vector>

namespace fogproof {
namespace {

constexpr double kMadToSigma = 1.4826;  // of a normal distribution
constexpr double kOutlier = 3.5;        // robust standard deviations; the usual limit for this rule
constexpr double kFaintestLight = 1e-5;

double median_of(std::vector<double> values) {
    const auto middle = values.begin() + std::ptrdiff_t(values.size() / 2);
    std::ranges::nth_element(values, middle);
    return *middle;
}

// A step that only noise makes uneven has even ninths: each is the mean of many pixels, dust left aside.
double mean_without_outliers(const std::vector<double>& light, double* spread, std::size_t* count) {
    const double median = median_of(light);
    std::vector<double> apart;
    for (const double each : light) apart.push_back(std::abs(each - median));
    // Where half of the pixels share one code the spread still is that of rounding to codes.
    const double limit = kOutlier * std::max(kMadToSigma * median_of(apart), 0.01 * median + 1e-6);
    double sum = 0, squares = 0;
    std::size_t kept = 0;
    for (const double each : light)
        if (std::abs(each - median) <= limit) sum += each, squares += each * each, ++kept;
    const double mean = sum / double(kept);
    if (spread != nullptr) *spread = std::sqrt(std::max(0.0, squares / double(kept) - mean * mean));
    if (count != nullptr) *count = kept;
    return mean;
}

}  // namespace

PatchLight patch_light(const ReflectionImage& image, const StripPlace& place, double u0, double u1, double v0,
                       double v1) {
    double left = 1e300, right = -1e300, top = 1e300, bottom = -1e300;
    for (const auto& [x, y] : place.corners(u0, u1, v0, v1)) {
        left = std::min(left, x), right = std::max(right, x);
        top = std::min(top, y), bottom = std::max(bottom, y);
    }
    std::vector<double> light;
    std::array<std::vector<double>, 9> ninths;
    double clipped = 0;
    for (int y = std::max(0, int(top)); y < std::min(image.height, int(bottom) + 1); ++y)
        for (int x = std::max(0, int(left)); x < std::min(image.width, int(right) + 1); ++x) {
            const auto [u, v] = place.uv(x + 0.5, y + 0.5);
            if (u < u0 || u >= u1 || v < v0 || v >= v1) continue;
            light.push_back(image.light_at(x, y));
            clipped += image.clipped_at(x, y);
            const auto third = [](double part) { return std::min<std::size_t>(2, std::size_t(3 * part)); };
            ninths[3 * third((u - u0) / (u1 - u0)) + third((v - v0) / (v1 - v0))].push_back(light.back());
        }
    PatchLight made;
    if (light.empty()) return made;
    made.mean = mean_without_outliers(light, &made.spread, &made.count);
    made.clipped = clipped / double(light.size());
    double lightest = 1e-30, darkest = 1e300;
    for (const auto& ninth : ninths) {
        if (ninth.empty()) continue;
        const double mean = std::max(mean_without_outliers(ninth, nullptr, nullptr), kFaintestLight);
        lightest = std::max(lightest, mean), darkest = std::min(darkest, mean);
    }
    made.uneven = std::log10(lightest / darkest);
    return made;
}

}  // namespace fogproof
