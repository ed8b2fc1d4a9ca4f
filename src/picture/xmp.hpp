// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a picture says about its own making, as an XMP packet (ISO 16684-1).
#pragma once

#include <span>
#include <string>
#include <utility>

#include "fogproof/rooms.hpp"

namespace fogproof::picture {

/// One property and its value; the name is letters, digits, '-', '_' and '.', beginning with a letter.
using XmpProperty = std::pair<std::string, std::string>;

/// A packet of simple properties in the name space "urn:fogproof:1:". Values may hold any text; what XML
/// cannot carry is replaced. Throws std::invalid_argument on a name that XML forbids.
[[nodiscard]] std::string xmp_packet(std::span<const XmpProperty>);

}  // namespace fogproof::picture
