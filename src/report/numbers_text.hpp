// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <string>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// Every number of a pack under its key in the file, with its 95 % and where it comes from.
[[nodiscard]] std::string numbers_text(const Pack&);

}  // namespace fogproof::report
