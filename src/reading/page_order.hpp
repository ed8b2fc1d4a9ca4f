// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/scan_pieces.hpp"

namespace fogproof::reading {

/// As one reads a page: row by row from the top, within a row from the left.
void sort_as_a_page(std::vector<ScanPiece>&);

}  // namespace fogproof::reading
