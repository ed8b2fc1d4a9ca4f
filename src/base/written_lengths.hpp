// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

/// Millimetres of sides as people write them: "240x300", "240 x 300 mm", "24x30cm", "9.5x12in"; the unit
/// stands once, at the end, and is millimetres where none does. Nothing when the text is no such list.
[[nodiscard]] std::optional<std::vector<double>> millimetres_in(std::string_view text);

}  // namespace fogproof::base
