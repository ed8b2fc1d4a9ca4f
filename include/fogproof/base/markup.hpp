// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Any text, file names included, made fit to stand in XML, HTML and JSON.
#pragma once

#include <string>
#include <string_view>

namespace fogproof {

/// The text as UTF-8 (RFC 3629); bytes that are none become U+FFFD each.
[[nodiscard]] std::string valid_utf8(std::string_view);
/// The text as valid UTF-8 with & < > " escaped, and a space for each control character that XML 1.0 forbids.
[[nodiscard]] std::string escaped_markup(std::string_view);

}  // namespace fogproof
