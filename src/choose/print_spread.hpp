// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How much lighter or darker a print may come out than expected, because the pack is known only roughly
// and no sheet is quite like the next.
#pragma once

#include "base/interpolation.hpp"
#include "choose/printing.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

struct PrintSpread {
    MonotoneCurve lightness;  ///< half the 95 % interval of L*, by negative density
    double border;            ///< the same for the unexposed border
};

/// For the very seconds of a proof: exposure and bleach stay what they are, the paper differs.
[[nodiscard]] PrintSpread print_spread(const Printing&, const Proof&);

}  // namespace fogproof::choose
