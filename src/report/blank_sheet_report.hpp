// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a blank sheet told of the fog of its edges.
#pragma once

#include <string>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "reading/blank_sheet.hpp"

namespace fogproof::report {

[[nodiscard]] std::string blank_sheet_text(const BlankSheet&, const Pack&);
[[nodiscard]] std::string blank_sheet_json(const BlankSheet&, const Pack&);

}  // namespace fogproof::report
