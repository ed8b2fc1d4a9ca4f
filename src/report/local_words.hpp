// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Local work told: in words for people, in numbers for programs.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <span>
#include <string>
#include <vector>

#include "choose/printing.hpp"
#include "fogproof/rooms.hpp"
#include "pixels/level_grid.hpp"

namespace fogproof::report {

/// One work: "burn sky for 8.2 s at grade 0", "dodge for 2 s", "bleach locally for 20 s".
[[nodiscard]] std::string local_words(const Printing&, const Proof&, std::size_t work);
/// Seconds or a dose: 0 where a work of the recipe is told to do nothing.
[[nodiscard]] double local_amount_of(const Proof&, std::size_t work);
/// Where it is done: "sky.png", "from the top edge down to 35 %".
[[nodiscard]] std::string place_words(const LocalWork&);
/// All works of a print, with how much of the frame each touches.
[[nodiscard]] nlohmann::ordered_json local_json(const Printing&, const Proof&, std::span<const Touched>);

}  // namespace fogproof::report
