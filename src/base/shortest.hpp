// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Numbers as files hold them.
#pragma once

#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

/// The fewest digits that read back as the same value, whatever the locale.
[[nodiscard]] std::string shortest(double value);

}  // namespace fogproof::base
