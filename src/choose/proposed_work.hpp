// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What one burn or dodge would gain, with everything in doubt that is in doubt.
#pragma once

#include <algorithm>

#include "choose/proposed_place.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

struct ProposedWork {
    ProposedPlace place;
    Interval stops;  ///< as proposed; 95 % of what the real pack will want
    /// rms L* of the first sheet: expected without it less expected with it, each by its best recipe; 95 % of
    /// what the work does from paper to paper.
    Interval gain;
    double without;  ///< expected of the first sheet without it, rms L*
};

/// Judgement: what brings a print closer by less than a tenth of L*, or by less than a fiftieth of what it is
/// expected to be off, is not worth a card.
[[nodiscard]] inline bool is_worth_it(const ProposedWork& work) {
    return work.gain.value >= std::max(0.1, work.without / 50);
}

/// The best point with the work against the best one without. `printing` counts the places of its mask.
[[nodiscard]] ProposedWork weighed(const Printing&, const Wanted&, const StartingPoint& without,
                                   const StartingPoint& with, ProposedPlace);

}  // namespace fogproof::choose
