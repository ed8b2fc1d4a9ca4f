// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How roughly the times of recipes are known because the pack is.
#pragma once

#include <span>
#include <vector>

#include "choose/starting_point.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

struct TimeDoubts {
    struct OfPoint {
        double exposure, bleach;  ///< one standard deviation, log10 of seconds
    };
    std::vector<OfPoint> points;
    TargetDoubt target;
};

/// On every pack that this one may be: the exposure that comes closest to what is wanted there, and the time
/// that reaches the same share of the clearing dose. The fresh print moves with the pack, held where its
/// readings know the curve: a tone that prints 0.60 above white goes on printing so.
[[nodiscard]] TimeDoubts time_doubts(const Easel&, const Wanted&, std::span<const StartingPoint>);

}  // namespace fogproof::choose
