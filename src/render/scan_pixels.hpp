// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Passes over the pixels of a scan; each opens the file anew and reads it from top to bottom.
#pragma once

#include "fogproof/render/scan.hpp"
#include "render/film_background.hpp"
#include "render/scan_channel.hpp"
#include "render/scan_file.hpp"

namespace fogproof {

[[nodiscard]] std::string words_for(const Region&);
/// The codes of a region of the upright scan; lazily evaluated.
[[nodiscard]] vips::VImage part_of(const ScanFile&, const ScanChannel&, const Region&);
/// A region of the upright scan for the strip engine, if it takes the file.
[[nodiscard]] std::optional<CodeLines> lines_of(const ScanFile&, const ScanChannel&, const Region&);
/// Exact counts of the codes in a region.
[[nodiscard]] Histogram counted(const ScanFile&, const ScanChannel&, const Region&);
[[nodiscard]] double median_light(const ScanFile&, const ScanChannel&, const Region&);
/// A copy of the scan that is small enough to search, each pixel the mean light of a square of `factor` by
/// `factor`. Where the strip engine reads it, the codes of the whole scan are counted on the way.
[[nodiscard]] SmallScan small_copy(const ScanFile&, const ScanChannel&, int factor,
                                   Histogram* counts = nullptr);

}  // namespace fogproof
