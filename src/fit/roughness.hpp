// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The shape of what readings err by from patch to patch.
#pragma once

#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// How much more a reading of this density jumps about than one of kRoughAt: less light comes back from dark
/// patches, and dust and scratches show on them. Judgement, in proportion to 0.012 + 0.008 D; its size is
/// learnt.
inline constexpr double kRoughAt = 0.6;
[[nodiscard]] double roughness(double density);

}  // namespace fogproof::fit
