// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How far a paper departs from the laws, in one line.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// "departure from the laws: curve up to 0.06 log10 of light, bleach up to 12 % of its time"
[[nodiscard]] std::string departure_words(const Pack&);
[[nodiscard]] nlohmann::ordered_json departure_json(const Pack&);

}  // namespace fogproof::report
