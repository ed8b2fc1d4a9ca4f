// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The output profiles that need no file.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::picture {

/// Their names, in the order to show them.
[[nodiscard]] const std::vector<std::string>& builtin_profile_names();
/// The bytes of an ICC profile, the same on every run and every day; nothing for a name that is not built in.
[[nodiscard]] std::optional<std::vector<std::uint8_t>> builtin_profile(std::string_view name);

}  // namespace fogproof::picture
