// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Dilutions as labels and worksheets write them: 1+50 is one part of stock in fifty of water.
#pragma once

#include <optional>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::bleach {

/// N of "1+N", or of N alone; nothing if the text is neither.
[[nodiscard]] std::optional<double> dilution_parts(std::string_view text);

}  // namespace fogproof::bleach
