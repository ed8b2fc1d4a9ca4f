// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Any text, file names included, made fit to stand in XML, HTML, JSON and on a terminal.
#pragma once

#include <string>
#include <string_view>

namespace fogproof {

/// The text as UTF-8 (RFC 3629); bytes that are none become U+FFFD each.
[[nodiscard]] std::string valid_utf8(std::string_view);
/// The text as valid UTF-8 that steers no terminal: control characters of ISO 646 and ISO 6429 (C1) become
/// question marks; line ends stay.
[[nodiscard]] std::string harmless(std::string_view);
/// The text as valid UTF-8 with & < > " escaped, and a space for each control character that XML 1.0 forbids.
[[nodiscard]] std::string escaped_markup(std::string_view);

}  // namespace fogproof
