// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Some pixels of a colour scan, as the light of each of its channels.
#pragma once

#include "base/region.hpp"
#include "fogproof/rooms.hpp"
#include "negative/scan_colour.hpp"
#include "scan/scan_channel.hpp"
#include "scan/scan_file.hpp"

namespace fogproof::scan {

/// Some thousand pixels spread evenly over the scan; one pass. None for a channel that does not tell the
/// light of red, green and blue apart.
[[nodiscard]] std::vector<ColourSample> colour_samples(const ScanFile&, const ScanChannel&,
                                                       const Region& frame);

}  // namespace fogproof::scan
