// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The pixels of a scan: one source of codes, whoever reads the file, and what a pass over it can tell.
#pragma once

#include <memory>
#include <string>

#include "fogproof/rooms.hpp"
#include "pixels/code_source.hpp"
#include "scan/film_background.hpp"
#include "scan/scan.hpp"
#include "scan/scan_channel.hpp"
#include "scan/scan_file.hpp"

namespace fogproof::scan {

[[nodiscard]] std::string words_for(const Region&);
/// The codes of a region of the upright scan. Here, and nowhere else, it is
/// settled who reads them.
[[nodiscard]] std::unique_ptr<CodeSource> source_of(const ScanFile&, const ScanChannel&, const Region&,
                                                    LineOrder = LineOrder::as_scanned);
/// Exact counts of the codes in a region.
[[nodiscard]] Histogram counted_in(const ScanFile&, const ScanChannel&, const Region&);
[[nodiscard]] double median_light(const ScanFile&, const ScanChannel&, const Region&);

/// A copy of the scan that is small enough to search, each pixel the mean light of a square of `factor` by
/// `factor`, and the codes of the whole scan counted on the way.
struct SmallCopy {
    SmallScan scan;
    Histogram counts;
};
[[nodiscard]] SmallCopy small_copy(const ScanFile&, const ScanChannel&, int factor);

}  // namespace fogproof::scan
