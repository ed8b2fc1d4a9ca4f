// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "calibrate/contradiction.hpp"

namespace fogproof {

std::vector<Contradiction> contradictions_in(const Prior&, std::span<const Reading>, const Errors&,
                                             const Fitted&) {
    return {};
}

}  // namespace fogproof
