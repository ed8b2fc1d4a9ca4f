// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What is handed in where a text is wanted and is none that can be read: a scan's name after --pack, say.
#pragma once

#include <string>
#include <string_view>

namespace fogproof {

/// Throws Error(Fault::data) "PLACE: is a TIFF picture; WANTED" when the content begins as a TIFF, PNG or
/// JPEG does; what is text in UTF-16 is refused too.
void refuse_picture(std::string_view content, const std::string& place, const std::string& wanted);

/// Throws Error(Fault::data) when the content begins with a byte order mark of UTF-16, as some spreadsheets
/// and editors save text.
void refuse_utf16(std::string_view content, const std::string& place);

}  // namespace fogproof
