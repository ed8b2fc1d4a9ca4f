// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "negative/scan_colour.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include "base/quantile.hpp"

namespace fogproof::negative {
namespace {

constexpr std::size_t kFewest = 200;  // samples
constexpr double kFaintest = 2e-3;    // light; below it a ratio is mostly noise
constexpr double kLikeClear = 0.06;   // density

// Densities of a colour negative's base are about 0.25 in red, 0.65 in green, 0.9 in blue (from memory); a
// wide colour space shows less of it. Stains and warm lamps stay far below.
constexpr double kMaskOverRed = 0.12, kMaskBlueOverRed = 0.25, kMaskBlueOverGreen = 0.05;
// Judgement: channels of a scan of silver differ by noise and registration, less than this.
constexpr double kColourful = 0.025;

double brightness(const ColourLight& light) {
    return 0.2126 * light[0] + 0.7152 * light[1] + 0.0722 * light[2];  // IEC 61966-2-1
}

ColourLight densities(std::span<const ColourLight> lights, double share) {
    ColourLight made{};
    for (std::size_t channel = 0; channel < 3; ++channel) {
        std::vector<double> values;
        for (const ColourLight& light : lights) values.push_back(light[channel]);
        made[channel] = -std::log10(quantile(values, share));
    }
    return made;
}

/// Stain and tint follow density; only what is left at one density is colour of the subject.
double variety_of(std::span<const ColourLight> lights) {
    std::map<int, std::vector<double>> by_density;
    for (const ColourLight& light : lights)
        by_density[int(std::floor(-std::log10(brightness(light)) / 0.1))].push_back(
            std::log10(light[0] / light[2]));
    double sum = 0, count = 0;
    for (auto& [bin, ratios] : by_density) {
        if (ratios.size() < 20) continue;
        sum += double(ratios.size()) * (quantile(ratios, 0.9) - quantile(ratios, 0.1)) / 2;
        count += double(ratios.size());
    }
    return count > 0 ? sum / count : 0;
}

}  // namespace

bool ScanColour::is_masked() const {
    const auto& [red, green, blue] = base;
    // A picture of red and yellow things has its lightest tones at full scale in red.
    constexpr double kFullScale = 0.02;
    if (!base_is_seen && red < kFullScale) return false;
    return green - red >= kMaskOverRed && blue - red >= kMaskBlueOverRed &&
           blue - green >= kMaskBlueOverGreen;
}

bool ScanColour::is_colourful() const {
    return variety >= kColourful;
}

ColourLight weights_for_paper(const ColourLight& base) {
    const double green = std::pow(10.0, -base[1]), blue = std::pow(10.0, -base[2]);
    return {0, blue / (green + blue), green / (green + blue)};
}

std::optional<ScanColour> scan_colour(std::span<const ColourSample> samples,
                                      std::optional<NegativeDensity> clear) {
    std::vector<ColourLight> frame, film;
    for (const auto& [light, in_frame] : samples) {
        if (*std::ranges::min_element(light) < kFaintest) continue;
        if (in_frame)
            frame.push_back(light);
        else if (clear && std::abs(-std::log10(brightness(light)) - clear->value) < kLikeClear)
            film.push_back(light);
    }
    if (frame.size() < kFewest) return std::nullopt;
    // Where no film is seen, deep shadows stand for it: there each layer is as clear as it can be.
    constexpr double kThinnest = 0.995;
    const bool is_seen = film.size() >= kFewest;
    return ScanColour{is_seen ? densities(film, 0.5) : densities(frame, kThinnest), is_seen,
                      variety_of(frame)};
}

}  // namespace fogproof::negative
