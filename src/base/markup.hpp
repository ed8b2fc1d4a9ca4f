// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Any text, file names included, made fit to stand in XML, HTML, JSON and on a terminal.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

/// The text as UTF-8 (RFC 3629); bytes that are none become U+FFFD each.
[[nodiscard]] std::string valid_utf8(std::string_view);
/// The text as valid UTF-8 with a question mark for each character that is not seen but does something:
/// control characters of ISO 646 and ISO 6429, line and paragraph separators, marks that turn the direction
/// of reading. Line feeds stay.
[[nodiscard]] std::string harmless(std::string_view);
/// The same with line feeds replaced as well. Every name of a file, strip, pack or profile goes through here
/// on its way to messages and answers, so that none can pass for a line of ours.
[[nodiscard]] std::string plain_line(std::string_view);
/// The text itself, or its beginning and its end with dots between them where it is longer than so many
/// bytes: a message has no room for a value of thousands of letters.
[[nodiscard]] std::string shortened(std::string_view, std::size_t most);
/// As much of the beginning of valid UTF-8 as has room in so many bytes, no character cut in two.
[[nodiscard]] std::string_view beginning_within(std::string_view, std::size_t bytes);
/// True when plain_line has nothing to replace.
[[nodiscard]] bool is_plain_line(std::string_view);
/// The text as valid UTF-8 with & < > " escaped and a space for each of these characters, tabs and line feeds
/// aside.
[[nodiscard]] std::string escaped_markup(std::string_view);

}  // namespace fogproof::base
