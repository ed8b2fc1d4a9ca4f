// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <string>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// Refuses a text of TOML whose tables, inline tables, lists and dotted keys lie deeper in each other than
/// any file of ours needs. To be asked before a parser builds them: it takes them down again by recursion.
void refuse_deep_toml(std::string_view text, const std::string& place);

}  // namespace fogproof::pack
