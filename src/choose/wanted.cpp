// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/wanted.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace fogproof::choose {

Wanted as_fresh(const Printing& printing) {
    return printing.fresh();
}

Wanted placed(const Printing& printing, std::span<const PlacedTone> tones) {
    constexpr double kPlacedShare = 0.9;
    Wanted wanted = as_fresh(printing);
    wanted.fresh = false;
    wanted.white.reset();
    for (Tone& tone : wanted.tones) tone.share *= 1 - kPlacedShare;
    wanted.placed = tones.size();
    for (const PlacedTone& tone : tones) {
        wanted.tones.push_back({tone.negative, kPlacedShare / double(tones.size())});
        wanted.lightness.push_back(
            lightness(printing.paper().sheet.white() + PrintDensity{tone.above_white}));
    }
    return wanted;
}

WantedEnds wanted_ends(const Wanted& wanted, const Tones& frame) {
    const auto at = [&](double share) {
        const NegativeDensity end = frame.quantile(share);
        const auto nearest = std::ranges::min_element(
            wanted.tones, {}, [end](const Tone& tone) { return std::abs((tone.density - end).value); });
        return wanted.lightness[std::size_t(nearest - wanted.tones.begin())];
    };
    return {at(kDenseEnd), at(kThinEnd)};
}

Wanted minding(Wanted wanted, std::span<const MindedTones> minded) {
    double rest = 1;
    for (const MindedTones& some : minded) rest -= some.share;
    for (Tone& tone : wanted.tones) tone.share *= rest;
    const auto nearest = [&](const Tone& to) -> Tone& {
        const auto as_picture = std::span(wanted.tones).first(wanted.tones.size() - wanted.placed);
        return *std::ranges::min_element(as_picture, {}, [&](const Tone& tone) {
            return std::pair(tone.place != to.place, std::abs((tone.density - to.density).value));
        });
    };
    for (const MindedTones& some : minded) {
        const double total = std::accumulate(some.tones.begin(), some.tones.end(), 0.0,
                                             [](double sum, const Tone& tone) { return sum + tone.share; });
        for (const Tone& tone : some.tones) nearest(tone).share += some.share * tone.share / total;
    }
    return wanted;
}

std::vector<Tone> tones_between(const Tones& frame, double from, double to) {
    std::vector<Tone> between;
    double below = 0;
    for (const Tone& tone : frame.all()) {
        const double inside = std::min(below + tone.share, to) - std::max(below, from);
        if (inside > 0) between.push_back({tone.density, inside, tone.place});
        below += tone.share;
    }
    return between;
}

Wanted matched(const Printing& printing, std::vector<MatchedTone> other) {
    std::ranges::sort(other, {}, &MatchedTone::lightness);
    const double total =
        std::accumulate(other.begin(), other.end(), 0.0,
                        [](double sum, const MatchedTone& tone) { return sum + tone.share; });
    // The thinnest tones of the negative print darkest, so both run from dark to light.
    Wanted wanted{printing.tones(), {}, false, std::nullopt};
    double here = 0, there = 0;
    std::size_t rank = 0;
    for (const Tone& tone : wanted.tones) {
        const double middle = here + tone.share / 2;
        while (rank + 1 < other.size() && there + other[rank].share / total < middle)
            there += other[rank++].share / total;
        wanted.lightness.push_back(other[rank].lightness);
        here += tone.share;
    }
    return wanted;
}

}  // namespace fogproof::choose
