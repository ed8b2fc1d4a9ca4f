// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Options that take several amounts, each as AMOUNT@GRADE: in one word ("4s@0 7s@5") or in several. CLI11
// alone would take whatever follows, the negative too.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::cli {

inline constexpr const char* kSplitOption = "--split";
inline constexpr const char* kFlashOption = "--flash";

/// The words of a command line with the amounts that follow one of these two options joined to it
/// ("--split=4s@0 7s@5"). The first word behind it counts as one whatever it is; "--" ends all options.
[[nodiscard]] std::vector<std::string> with_amounts_joined(std::span<char* const> words);
/// Each of them by itself again.
[[nodiscard]] std::vector<std::string> amounts_of(const std::vector<std::string>& joined);

}  // namespace fogproof::cli
