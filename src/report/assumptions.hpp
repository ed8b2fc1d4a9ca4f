// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which numbers of a pack nobody measured, in one sentence.
#pragma once

#include <string>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// "Measured: ... Given: ... Assumed: ...", by section of the pack file.
[[nodiscard]] std::string assumptions(const Pack&);

}  // namespace fogproof::report
