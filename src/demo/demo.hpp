// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The example scenario: an invented negative that looks like a photograph, as a scanner would give it, and
// the text that goes with it.
//
// The scene (a hut under snow, mountains behind) is computed as a picture at most 3000 pixels wide and thrown
// on the film through a slightly soft lens; film grain, perforations and the scanner are computed for every
// pixel of the scan. So very large scans show more of the grain but no more of the scene, as with a real 35
// mm frame.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "scan/scan.hpp"
#include "system/whole_file.hpp"

namespace fogproof::demo {

/// A scan of one 36 x 24 mm frame with clear film edge, perforations and holder around it. Codes are linear
/// transmittance, 65535 the bare light of the scanner.
struct DemoNegative {
    int width = 0, height = 0;
    std::vector<std::uint16_t> codes;
    Region frame;              ///< the exposed frame
    double pixels_per_mm = 0;  ///< of the film
};

inline constexpr double kDemoSmallest = 0.3, kDemoLargest = 400;  ///< megapixels
/// Error(Fault::usage) for a size outside the limits.
void refuse_demo_size(double megapixels);

/// The same pixels for any number of threads; 0 takes one for each processor. Throws Error(Fault::usage) for
/// a size outside the limits.
[[nodiscard]] DemoNegative demo_negative(double megapixels, unsigned threads = 0);

/// Writes a 16-bit grey TIFF without profile, its resolution that of the scan, into a file that the caller
/// names when it is time.
void write_demo_negative(const DemoNegative&, WholeFile&);
/// What the folder's README.txt says.
[[nodiscard]] std::string demo_story();

/// Writes folder/negative.tif and folder/README.txt with the pack and its readings, all or none, making the
/// folder if it is missing.
void write_demo(const std::filesystem::path& folder, double megapixels, WholeFile::Replace);

}  // namespace fogproof::demo
