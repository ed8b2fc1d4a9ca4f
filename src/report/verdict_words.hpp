// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <string>

#include "fogproof/rooms.hpp"
#include "proof/pack_verdict.hpp"

namespace fogproof::report {

/// "no", "unlikely", "likely", "yes".
[[nodiscard]] std::string answer_words(Answer);
/// What bleach does to white and black, and what prints that allows: two lines.
[[nodiscard]] std::string verdict_words(const PackSummary&);

}  // namespace fogproof::report
