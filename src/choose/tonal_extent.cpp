// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/tonal_extent.hpp"

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
        if (density < minimum + 0.04) extent.blank_highlights += tone.share;
        if (density > minimum + 0.90 * net) extent.blocked_shadows += tone.share;
    }
    return extent;
}

}  // namespace fogproof::choose
