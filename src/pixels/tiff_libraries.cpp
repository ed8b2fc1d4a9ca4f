// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/tiff_libraries.hpp"

#include <libdeflate.h>
#include <tiffio.h>

#include <algorithm>

namespace fogproof::pixels {

std::vector<std::string> strip_libraries() {
    // "LIBTIFF, Version 4.5.0" and further lines.
    std::string tiff = TIFFGetVersion();
    tiff.resize(std::min(tiff.find('\n'), tiff.size()));
    return {"libtiff " + tiff.substr(tiff.rfind(' ') + 1), "libdeflate " LIBDEFLATE_VERSION_STRING};
}

}  // namespace fogproof::pixels
