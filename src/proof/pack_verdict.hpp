// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Is the pack worth it? What its sheets can still show once the bleach has cleared them.
#pragma once

#include "fogproof/rooms.hpp"
#include "proof/pack_summary.hpp"

namespace fogproof::proof {

/// Densities that a printer would call white, a full scale and deep. Judgement: papers that do not fog have
/// whites of 0.05 to 0.10, blacks of 1.5 (matt) to 2.1 (gloss).
inline constexpr double kFullScaleWhite = 0.15, kFullScaleRange = 1.2, kDeepBlack = 1.7;

/// In rising order. `yes` and `no` where 95 % of what the pack leaves open says so; between them what is
/// likeliest decides.
enum class Answer { no, unlikely, likely, yes };

struct PackVerdict {
    Interval white, black;  ///< visual densities of the cleared sheet; as the pack is, where it has no fog
    bool is_cleared;        ///< the bleach brought it there
    Answer full_scale;      ///< white up to 0.15, black at least 1.2 above it
    Answer deep_blacks;     ///< 1.7 or more
};

[[nodiscard]] PackVerdict pack_verdict(const PackSummary&);

}  // namespace fogproof::proof
