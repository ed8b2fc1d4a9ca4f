// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How a fit ended.
#pragma once

#include "fogproof/rooms.hpp"

namespace fogproof::fit {

enum class Ending {
    converged,
    out_of_steps,
    singular,  ///< the readings leave a direction wholly open
    failed,    ///< no usable residuals
};

}  // namespace fogproof::fit
