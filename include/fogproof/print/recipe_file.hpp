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

/// Masks are looked for beside the file. Throws Error(Fault::no_input) when it cannot be read and otherwise
/// as parse_recipe does.
[[nodiscard]] Recipe read_recipe(const std::filesystem::path&);
/// The recipe with its masks' paths, as they are told in a file of that folder, made paths from here; and the
/// way back.
[[nodiscard]] Recipe with_masks_in(const std::filesystem::path& folder, Recipe);
[[nodiscard]] Recipe with_masks_as_from(const std::filesystem::path& folder, Recipe);
/// Throws Error(Fault::data, "PLACE:LINE: found; allowed ...") for the first fault in the text.
[[nodiscard]] Recipe parse_recipe(std::string_view text, const std::string& place);
/// The text of a recipe's file; parse_recipe gives the same recipe back. Refuses what check(Recipe) refuses.
[[nodiscard]] std::string written(const Recipe&);

}  // namespace fogproof::print
