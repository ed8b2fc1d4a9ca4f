// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Recipes that can be worked out and are hardly meant: minutes typed for seconds, percent for millilitres a
// litre, a bleach many times as long as one that clears.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// One sentence for each kind of doubt about recipes that are printed together: what was told, what it does
/// to the print, how it is written if something else was meant.
[[nodiscard]] std::vector<std::string> recipe_doubts(const Pack&, std::span<const Recipe>);

/// Throws Error(Fault::usage) when recipes redevelop and none of them bleaches: there is nothing to bring
/// back.
void require_bleach_before_redevelopment(std::span<const Recipe>);

}  // namespace fogproof::print
