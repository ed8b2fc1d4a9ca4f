// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The pieces found on a scan, for people and for programs, and how their labels are filled in.
#pragma once

#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/piece_kinds.hpp"

namespace fogproof::report {

/// Comment lines of a labels file that is still to be filled in.
[[nodiscard]] std::vector<std::string> comments_on_pieces(const std::string& scan);
[[nodiscard]] std::string pieces_text(const PiecesSeen&, const std::string& scan);
[[nodiscard]] std::string pieces_json(const PiecesSeen&);

}  // namespace fogproof::report
