// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Redevelopment: bleached silver comes back, and its fog with it. What stays halide leaves in the fixer.
#pragma once

#include "fogproof/base/quantity.hpp"
#include "fogproof/bleach/bleach.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::redevelop {

/// Judgement until measured.
struct Redevelopment {
    double covering = 1.0;  ///< kappa: density of silver given back over that of the silver it was
    double recoverable =
        1.0;  ///< y: share of the halide that can still be developed (0 once the print was fixed again)
    double rise_s = 25.0;  ///< tau_r
    friend bool operator==(const Redevelopment&, const Redevelopment&) = default;
};

/// Silver of the finished print by origin; each part has its own tone.
struct FinishedSilver {
    LayerDensity left;  ///< never bleached
    LayerDensity back;  ///< bleached and redeveloped
    LayerDensity gone;  ///< bleached and fixed away
};

/// A_back = kappa y (1 - e^(-t/tau_r)) (A - A_left).
[[nodiscard]] FinishedSilver redeveloped(BleachedSilver, const Redevelopment&, Seconds);

}  // namespace fogproof::redevelop
