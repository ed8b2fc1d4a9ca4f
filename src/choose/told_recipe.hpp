// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A way of working as a printer carries it out.
#pragma once

#include <optional>

#include "fogproof/base/quantity.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

struct ToldRecipe {
    double grade, restrainer_ml_l, develop_s;
    Seconds exposure, bleach;
    double dose;                           ///< that the bleach is on the pack as it stands
    std::optional<Seconds> made_up_for{};  ///< of the bleach, by the exposure, where that is not all of it
};

}  // namespace fogproof::choose
