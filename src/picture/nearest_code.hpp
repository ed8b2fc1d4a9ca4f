// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From 16 to 8 bits a channel with the least visible error.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "fogproof/sheet/colour.hpp"
#include "scan/lcms_session.hpp"

namespace fogproof::picture {

/// For each colour the best of the 2^channels 8-bit codes around its 16-bit codes.
[[nodiscard]] std::vector<std::uint8_t> nearest_8bit_codes(const LcmsSession::Transform& to_lab, int channels,
                                                           std::span<const Lab> colours,
                                                           std::span<const std::uint16_t> codes);

}  // namespace fogproof::picture
