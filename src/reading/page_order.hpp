// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/strip_reading.hpp"

namespace fogproof::reading {

/// As one reads a page: row by row from the top, within a row from the left.
[[nodiscard]] std::vector<StripReading> in_page_order(std::vector<StripReading>);

}  // namespace fogproof::reading
