// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The head of the enlarger for which a recipe's seconds hold: its magnification, its f-number, its light.
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

/// Whether somebody told a number of the setting, "magnification" or "f_number", for the print or for the
/// pack's own seconds.
[[nodiscard]] bool is_setting_told(const Pack&, const std::string& key);
/// Whether either of the two was told.
[[nodiscard]] bool is_head_told(const Pack&);

/// The recipe as it is printed on the pack: its seconds are for the pack's head, as far as that is told.
[[nodiscard]] Recipe with_head_of(const Pack&, Recipe);

/// Says of a pack that does not tell for which head its seconds are, where the head is set otherwise than is
/// taken for them.
[[nodiscard]] std::optional<std::string> doubt_of_anchor(const Pack&);

/// Says of a recipe whose own seconds are for another head than the pack's how much light the paper gets, and
/// what makes up for it.
[[nodiscard]] std::optional<std::string> doubt_of_head(const Pack&, const Recipe&);

}  // namespace fogproof::print
