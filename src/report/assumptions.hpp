// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which numbers of a pack nobody measured, in one sentence.
#pragma once

#include <string>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// "Measured: paper (white, black) ... Given: ... Assumed: ...", by section of the pack file, in the words of
/// number_words.hpp.
[[nodiscard]] std::string assumptions(const Pack&);

}  // namespace fogproof::report
