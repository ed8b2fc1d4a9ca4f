// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Labels of strips that are hardly meant, such as minutes for seconds.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// As recipe_doubts(), for what the rows say was done to their strips; where nothing is known of the paper,
/// on the usual one.
[[nodiscard]] std::vector<std::string> label_doubts(std::span<const Reading>, const Pack& = {});

}  // namespace fogproof::fit
