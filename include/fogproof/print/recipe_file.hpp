// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The file of a recipe: TOML, versioned, commented, made to be edited by hand. Whatever it leaves out is as
// in a default recipe: one exposure, no restrainer, the pack's nominal development, no bleach.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// Throws Error(Fault::no_input) when the file cannot be read and otherwise as parse_recipe does.
[[nodiscard]] Recipe read_recipe(const std::filesystem::path&);
/// Throws Error(Fault::data, "PLACE:LINE: found; allowed ...") for the first fault in the text.
[[nodiscard]] Recipe parse_recipe(std::string_view text, const std::string& place);
/// The text of a recipe's file; parse_recipe gives the same recipe back. Refuses what check(Recipe) refuses.
[[nodiscard]] std::string written(const Recipe&);

}  // namespace fogproof::print
