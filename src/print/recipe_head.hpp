// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The setting of the enlarger's head for which a recipe's seconds hold.
#pragma once

#include <optional>
#include <string>

#include "fogproof/enlarger/enlarger.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// "magnification 5 and f/8".
[[nodiscard]] std::string in_words(const HeadSetting&);

/// Whether somebody told the setting for which the pack's seconds hold, or that of the print.
[[nodiscard]] bool is_head_told(const Pack&);

/// The recipe with the pack's setting, where its exposures are in seconds and the setting was told.
[[nodiscard]] Recipe with_head_of(const Pack&, Recipe);

/// Says of a recipe whose seconds are for another setting than the pack's how much light the print gets, and
/// what makes up for it.
[[nodiscard]] std::optional<std::string> doubt_of_head(const Pack&, const Recipe&);

}  // namespace fogproof::print
