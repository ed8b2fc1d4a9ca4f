// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Colours of the sheets that prints are laid on.
#pragma once

#include "fogproof/rooms.hpp"
#include "fogproof/sheet/colour.hpp"

namespace fogproof::picture {

/// Neutral surround, darker than any fogged white, so that whites can be told apart, and lighter than the
/// blacks (ISO 3664 asks for a neutral matt surround; the lightness is our choice).
inline constexpr Lab kSurround{40, 0, 0}, kInk{94, 0, 0}, kFaintInk{78, 0, 0}, kMark{97, 0, 0};

}  // namespace fogproof::picture
