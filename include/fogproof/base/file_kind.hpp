// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Pictures handed in where a text is wanted: a scan's name after --pack, say.
#pragma once

#include <string>
#include <string_view>

namespace fogproof {

/// Throws Error(Fault::data) "PLACE: is a TIFF picture; WANTED" when the content begins as a TIFF, PNG or
/// JPEG does.
void refuse_picture(std::string_view content, const std::string& place, const std::string& wanted);

}  // namespace fogproof
