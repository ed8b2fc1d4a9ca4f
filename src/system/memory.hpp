// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Memory asked for before it is needed. Libraries underneath end the process, or worse, when they get none.
#pragma once

#include <cstdint>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// Throws Error(Fault::unavailable) when so many bytes more cannot be had: because of a limit on this
/// process, or because the machine has none left.
void require_memory(std::uint64_t bytes, std::string_view place);

}  // namespace fogproof::system
