// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/picture_libraries.hpp"

#include <lcms2.h>
#include <vips/vips.h>

#include "base/words.hpp"
#include "scan/vips_session.hpp"

namespace fogproof::picture {

std::vector<std::string> imaging_libraries() {
    vips_ready();
    const std::string vips = std::to_string(vips_version(0)) + "." + std::to_string(vips_version(1)) + "." +
                             std::to_string(vips_version(2));
    return {"libvips " + vips, "Little CMS " + fixed(cmsGetEncodedCMMversion() / 1000.0, 2)};
}

void imaging_ready() {
    vips_ready();
}

}  // namespace fogproof::picture
