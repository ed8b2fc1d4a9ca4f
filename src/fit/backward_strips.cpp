// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/backward_strips.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>
#include <vector>

#include "base/words.hpp"
#include "fit/likeness.hpp"
#include "fit/treated_patch.hpp"
#include "fogproof/base/error.hpp"

namespace fogproof::fit {
namespace {

// Fewer bands, or bands closer in log10 exposure, say too little. Judgement.
constexpr std::size_t kLeastBands = 3;
constexpr double kLeastSpan = 0.25;
// D by which the straight line through the bands falls, and their correlation with it. Errors of reading on a
// flat part of the curve come to a third of that fall. Judgement.
constexpr double kFall = 0.15, kCorrelation = -0.8;

struct Band {
    double log_exposure, density;
};

bool is_backward(std::span<const Band> bands) {
    if (bands.size() < kLeastBands) return false;
    const double count = double(bands.size());
    double x = 0, y = 0;
    for (const Band& band : bands) {
        x += band.log_exposure / count;
        y += band.density / count;
    }
    double xx = 0, xy = 0, yy = 0;
    for (const Band& band : bands) {
        xx += std::pow(band.log_exposure - x, 2);
        xy += (band.log_exposure - x) * (band.density - y);
        yy += std::pow(band.density - y, 2);
    }
    const auto [dimmest, brightest] = std::ranges::minmax(bands, {}, &Band::log_exposure);
    const double span = brightest.log_exposure - dimmest.log_exposure;
    return span >= kLeastSpan && xy / xx * span < -kFall && xy < kCorrelation * std::sqrt(xx * yy);
}

}  // namespace

void refuse_backward_strips(std::span<const Reading> readings, const Pack& nominal,
                            const std::string& place) {
    std::map<std::pair<std::string, Treatment>, std::vector<Band>> strips;
    for (const Reading& reading : readings) {
        const TreatedPatch patch = treated(reading, nominal);
        if (patch.exposure_s <= 0 || patch.develop_s <= 0) continue;
        strips[{reading.strip, treatment_of(patch)}].push_back(
            {std::log10(patch.exposure_s) - patch.wedge_density, reading.density});
    }
    std::string text;
    for (const auto& [kind, bands] : strips) {
        if (!is_backward(bands)) continue;
        const auto [dimmest, brightest] = std::ranges::minmax(bands, {}, &Band::log_exposure);
        if (!text.empty()) text += "\n";
        text += place + ": strip \"" + kind.first + "\" gets lighter with more light, from " +
                fixed(dimmest.density, 2) + " D where least fell on it to " + fixed(brightest.density, 2) +
                " D where most did; paper darkens with light: check that its densities were not typed from "
                "the wrong end, and its exposures";
    }
    if (!text.empty()) throw Error(Fault::data, "", text);
}

}  // namespace fogproof::fit
