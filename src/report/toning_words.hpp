// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What is said of toners: their dangers, what is merely assumed of their colour, where a picture would lose
// it.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// Of each toner of the recipes that its colour is assumed, where nobody measured it on this pack.
[[nodiscard]] std::vector<std::string> toner_notes(const Pack&, std::span<const Recipe>);
/// How each toner of the recipes can hurt; said even by a program that is asked to be quiet.
[[nodiscard]] std::vector<std::string> toner_cautions(std::span<const Recipe>);

/// Throws Error(Fault::usage) where toned prints, or prints under the yellow bath, would be written in a
/// profile of one channel.
void refuse_coloured_in_grey(int channels, std::span<const Recipe>, bool is_under_bath);

/// The step of a worksheet after the bleach, or after the wash for selenium; nothing without a toner.
[[nodiscard]] std::optional<std::string> toning_step(const Recipe&);

}  // namespace fogproof::report
