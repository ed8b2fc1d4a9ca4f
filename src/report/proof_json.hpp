// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One proof as JSON: a print, or a cell of a grid.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "choose/printing.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// How it is made and what comes out. Without an anchor (`anchored` false) there are no seconds of exposure.
[[nodiscard]] nlohmann::ordered_json proof_json(const Proof&, bool anchored);

}  // namespace fogproof::report
