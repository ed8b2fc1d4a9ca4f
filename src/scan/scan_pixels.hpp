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
#include "scan/turned_codes.hpp"

namespace fogproof::scan {

/// Where the codes of a scan come from: as it lies in its file, upright by the orientation tag, or turned
/// from there by some degrees.
struct ScanPixels {
    ScanFile file;
    ScanChannel channel;
    std::shared_ptr<const TurnedCodes> turned{};

    [[nodiscard]] int width() const { return turned ? turned->turning().width() : file.width(); }
    [[nodiscard]] int height() const { return turned ? turned->turning().height() : file.height(); }
    [[nodiscard]] Region all() const { return {0, 0, width(), height()}; }
    [[nodiscard]] ScanPixels as_it_lies() const { return {file, channel}; }
};

[[nodiscard]] std::string words_for(const Region&);
/// The codes of a region. Here, and nowhere else, it is settled who reads them.
[[nodiscard]] std::unique_ptr<CodeSource> source_of(const ScanPixels&, const Region&,
                                                    LineOrder = LineOrder::as_scanned);
/// The same scan turned clockwise, resampled here and now.
[[nodiscard]] ScanPixels turned_by(double degrees, const ScanPixels& lying);
/// Exact counts of the codes in a region.
[[nodiscard]] Histogram counted_in(const ScanPixels&, const Region&);
[[nodiscard]] double median_light(const ScanPixels&, const Region&);

/// A copy of the scan that is small enough to search, each pixel the mean light of a square of `factor` by
/// `factor`, and the codes of the whole scan counted on the way.
struct SmallCopy {
    SmallScan scan;
    Histogram counts;
};
[[nodiscard]] SmallCopy small_copy(const ScanPixels&, int factor);

}  // namespace fogproof::scan
