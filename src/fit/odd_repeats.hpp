// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A patch that was read several times, once otherwise than the others.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// One sentence for each such reading: of three readings or more of one patch all but it agree.
[[nodiscard]] std::vector<std::string> odd_repeats(std::span<const Reading>, const Pack& nominal);

}  // namespace fogproof::fit
