// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/tonal_extent.hpp"
#include "fogproof/emulsion/paper_numbers.hpp"

#include <algorithm>
#include <utility>
#include <vector>

namespace fogproof::choose {
namespace {

constexpr std::size_t kExtentBins = 512;
constexpr double kDazzling = 1e9;  // clear-film seconds: every grain is exposed

}  // namespace

TonalExtent tonal_extent(const Tones& frame, const PrintModel& print) {
    const double minimum = print.border().density.value;
    const double net = print.lit({kDazzling, kDazzling}).density.value - minimum;
    TonalExtent extent{print.patch(frame.quantile(kDenseEnd)).density,
                       print.patch(frame.quantile(kThinEnd)).density, 0, 0};
    for (const Tone& tone : frame.gathered(kExtentBins)) {
        const double density = print.patch_of(tone).density.value;
        if (density < minimum + kIsoToe) extent.blank_highlights += tone.share;
        if (density > minimum + kIsoShoulder * net) extent.blocked_shadows += tone.share;
    }
    return extent;
}

TonalExtent tonal_extent(std::span<const Tone> tones, const PrintModel& print) {
    const double minimum = print.border().density.value;
    const double net = print.lit({kDazzling, kDazzling}).density.value - minimum;
    std::vector<std::pair<double, double>> shares;  // by density
    TonalExtent extent{};
    for (const Tone& tone : tones) {
        const double density = print.patch_of(tone).density.value;
        shares.emplace_back(density, tone.share);
        if (density < minimum + kIsoToe) extent.blank_highlights += tone.share;
        if (density > minimum + kIsoShoulder * net) extent.blocked_shadows += tone.share;
    }
    std::ranges::sort(shares);
    const auto reached = [&](double share) {
        double sum = 0;
        for (const auto& [density, part] : shares)
            if ((sum += part) >= share) return PrintDensity{density};
        return PrintDensity{shares.back().first};
    };
    // The dense end of the negative is the light end of the print.
    extent.lightest = reached(1 - kDenseEnd);
    extent.darkest = reached(1 - kThinEnd);
    return extent;
}

}  // namespace fogproof::choose
