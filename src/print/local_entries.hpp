// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The [[local]] tables of a recipe's file.
#pragma once

#include <string>

#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"
#include "pack/toml_file.hpp"

namespace fogproof::print {

/// More works than this on one sheet is a slip of the pen.
inline constexpr std::size_t kMostLocalWorks = 8;

/// Throws Error(Fault::data, "PLACE:LINE: found; expected: ...").
[[nodiscard]] LocalWork local_work_of(const TomlSection&);
[[nodiscard]] std::string text_of(const LocalWork&);
/// Throws Error(Fault::usage) with `place` in front.
void check(const LocalWork&, const std::string& place);

}  // namespace fogproof::print
