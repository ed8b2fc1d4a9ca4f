// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Packs that a pack may be, as draws_of() draws them, brought back to what its readings say. A fit leaves
// straight lines along which numbers make up for each other; papers bend, so that a draw far along such a
// line would no longer show what was read.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "pack/draws.hpp"

namespace fogproof::fit {

/// Of a pack that was never fitted, or that has lost its readings, draws_of() itself.
[[nodiscard]] std::vector<pack::PackDraw> draws_as_read(const Pack&, std::size_t count,
                                                        std::uint64_t set = 0);

}  // namespace fogproof::fit
