// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/strip_measure.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/words.hpp"

namespace fogproof::reading {
namespace {

// Shares of a step left out at each side: blur, shadows of the paper's edge, light that spreads from the next
// step.
constexpr double kAlongMargin = 0.22, kAcrossMargin = 0.18;
constexpr std::size_t kFewestPixels = 60;
// Judgement: a clipped pixel drags the mean by up to its own error; two in a hundred move it by less than
// 0.01.
constexpr double kMostClipped = 0.02;
// Judgement, in density: what may remain of unevenness between the ninths of a step. The share of the density
// covers the codes of 8-bit scans, which lie far apart in the blacks.
constexpr double kMostUnusual = 0.3;
constexpr double kMostUneven = 0.04, kMostUnevenShare = 0.03;
// Judgement, in density: what halves of one tone may differ, and what halves of a bleached strip do on the
// whole.
constexpr double kSameTone = 0.02, kBleachIsPlain = 0.04;

std::string fault_of(const PatchLight& light, double density) {
    if (light.count < kFewestPixels)
        return "only " + std::to_string(light.count) + " pixels to read; a finer scan";
    if (light.clipped > kMostClipped)
        return "clipped: " + fixed(100 * light.clipped, 1) +
               " % of it at the first or last code; at most 2 %, a scan with other exposure settings and "
               "without automatic levels";
    if (!std::isfinite(density)) return "no brighter than the stray light that the two known patches show";
    const double allowed = kMostUneven + kMostUnevenShare * std::max(density, 0.0);
    if (light.uneven > allowed)
        return "too uneven: densities " + fixed(light.uneven, 2) + " apart within it; at most " +
               fixed(allowed, 2);
    if (light.unusual > kMostUnusual)
        return "too uneven: " + fixed(100 * light.unusual, 0) +
               " % of it differs from the rest; at most 30 %";
    return {};
}

}  // namespace

std::vector<MeasuredStep> measured_steps(const ReflectionImage& image, const StripLayout& layout, double v0,
                                         double v1, const DensityOfLight& scale) {
    const double across = kAcrossMargin * (v1 - v0);
    std::vector<MeasuredStep> steps;
    for (std::size_t i = 0; i + 1 < layout.bounds.at.size(); ++i) {
        const double from = layout.bounds.at[i], to = layout.bounds.at[i + 1],
                     along = kAlongMargin * (to - from);
        const PatchLight light =
            patch_light(image, layout.place, from + along, to - along, v0 + across, v1 - across);
        const double reflectance = scale.reflectance(light.mean);
        const double density = reflectance > 0 ? -std::log10(reflectance) : std::nan("");
        steps.push_back({density, light.spread * scale.gain / (reflectance * std::numbers::ln10), light.count,
                         layout.place.corners(from + along, to - along, v0 + across, v1 - across),
                         fault_of(light, density)});
    }
    if (layout.darkens) std::ranges::reverse(steps);
    return steps;
}

bool bleached_by_halves(const ReflectionImage& image, const StripLayout& layout,
                        const DensityOfLight& scale) {
    const double parting = parting_line(image, layout.place, layout.bounds.at.front(),
                                        layout.bounds.at.back(), layout.v0, layout.v1);
    const auto first = measured_steps(image, layout, layout.v0, parting, scale),
               second = measured_steps(image, layout, parting, layout.v1, scale);
    std::size_t even = 0, lighter = 0, denser = 0;
    double sum = 0;
    for (std::size_t i = 0; i < first.size(); ++i) {
        if (!first[i].fault.empty() || !second[i].fault.empty()) continue;
        const double apart = first[i].density - second[i].density;
        ++even, sum += apart;
        lighter += apart<-kSameTone, denser += apart> kSameTone;
    }
    return 2 * even >= first.size() && std::abs(sum) > kBleachIsPlain * double(even) &&
           std::min(lighter, denser) == 0;
}

}  // namespace fogproof::reading
