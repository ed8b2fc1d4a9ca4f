// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Strips that were typed from the wrong end: more light made them lighter.
#pragma once

#include <span>
#include <string>

#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// Throws Error(Fault::data), one line for every such strip. Paper darkens with exposure; only readings of
/// one treatment are held against each other, and scatter on a flat part of the curve is left alone.
void refuse_backward_strips(std::span<const Reading>, const Pack& nominal, const std::string& place);

}  // namespace fogproof::fit
