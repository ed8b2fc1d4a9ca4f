// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/redevelop/redevelop.hpp"

#include <cmath>

namespace fogproof::redevelop {

FinishedSilver redeveloped(BleachedSilver bleached, const Redevelopment& constants, Seconds time) {
    const double progress = time.value > 0 ? -std::expm1(-time.value / constants.rise_s) : 0.0;
    const double recovered = constants.recoverable * progress * bleached.lost.value;
    return {bleached.left, {constants.covering * recovered}, {bleached.lost.value - recovered}};
}

}  // namespace fogproof::redevelop
