// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Calls of libvips that need options, through its C functions. The options of its C++ interface need libvips
// when the program starts, and it is opened only when it is first used (vips_session.hpp).
#pragma once

#include <vips/vips8>

#include "fogproof/rooms.hpp"

namespace fogproof::scan {

/// The picture that such a call puts in its place for results:
///
///     made_by_vips([&](VipsImage** made) { return vips_copy(from, made, "xres", 10.0, nullptr); })
///
/// The function ends its options with a null pointer, and their types must be exact: the compiler checks none
/// of them. Throws vips::VError when it fails.
template <class Call>
[[nodiscard]] vips::VImage made_by_vips(Call call) {
    VipsImage* made = nullptr;
    if (call(&made) != 0) throw vips::VError();
    return vips::VImage(made);
}

/// Its first channels. Throws vips::VError.
[[nodiscard]] inline vips::VImage first_bands(const vips::VImage& image, int count) {
    return made_by_vips(
        [&](VipsImage** made) { return vips_extract_band(image.get_image(), made, 0, "n", count, nullptr); });
}

/// Throws vips::VError unless such a call that makes no picture gave 0.
inline void require_done(int result) {
    if (result != 0) throw vips::VError();
}

}  // namespace fogproof::scan
