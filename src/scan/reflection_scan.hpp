// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A flatbed scan of prints on disk, as the light that each place of it sends back.
#pragma once

#include <filesystem>
#include <optional>

#include "fogproof/rooms.hpp"
#include "scan/reflection_image.hpp"
#include "scan/scan.hpp"

namespace fogproof::scan {

/// Luminance by the scan's profile (or the encoding given, or what is usual for its depth, with a note).
/// Larger scans are brought to about 2400 pixels on their longer side, each pixel the mean of the light it
/// covers. Throws as Scan::open does.
[[nodiscard]] ReflectionImage reflection_scan(const std::filesystem::path&, std::optional<Encoding>,
                                              double max_pixels, Notes&);

}  // namespace fogproof::scan
