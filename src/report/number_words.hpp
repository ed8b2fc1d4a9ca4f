// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the numbers of a pack are called below a picture, where nobody knows the keys of the pack's file.
#pragma once

#include <string_view>

#include "fogproof/rooms.hpp"
#include "pack/schema.hpp"

namespace fogproof::report {

/// "setting of the pack's seconds" for a section of the file.
[[nodiscard]] std::string_view section_words(std::string_view section);
/// "dose that halves the fog" for a number, behind the words of its section. Numbers that mean one thing
/// together share their words.
[[nodiscard]] std::string_view number_words(const PackNumber&);

}  // namespace fogproof::report
