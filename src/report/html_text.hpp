// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The little HTML that pages need, as text: elements, pictures inside the page, and the frame of a page that
// loads nothing.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>

#include "fogproof/rooms.hpp"

namespace fogproof::report::html {

using Attributes = std::initializer_list<std::pair<std::string_view, std::string_view>>;

/// An element around content that is markup already. Attribute values are escaped here.
[[nodiscard]] std::string element(std::string_view name, const Attributes&, std::string_view content);
/// An element around plain words, which are escaped.
[[nodiscard]] std::string worded(std::string_view name, std::string_view words, const Attributes& = {});
/// A file as an address that holds it (RFC 2397).
[[nodiscard]] std::string data_uri(std::string_view media_type, std::string_view bytes);
/// A picture as a data: URI with the words that stand for it. Sizes in CSS pixels.
[[nodiscard]] std::string picture(std::string_view media_type, std::string_view bytes, std::string_view words,
                                  int width, int height);
/// JSON for inside a script element, whose end is looked for in strings too: every < is told by its number.
[[nodiscard]] std::string within_script(std::string json);
/// Drawings of our own (SVG text) as a picture; sizes are read off their first width and height.
[[nodiscard]] std::string drawing(std::string_view svg, std::string_view words);

struct Page {
    std::string title;
    std::string_view style, script;  ///< the only ones the page may use; script may be empty
    std::string body;                ///< markup between <body> and </body>
};

/// A page in one file under a policy that lets it use its own style, script and pictures and nothing else.
[[nodiscard]] std::string page(const Page&);

/// 'sha256-...' of an inline style or script, as Content Security Policy Level 3 writes it.
[[nodiscard]] std::string policy_hash(std::string_view text);

}  // namespace fogproof::report::html
