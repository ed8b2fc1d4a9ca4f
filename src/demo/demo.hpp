// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The example scenario: an invented negative that looks like a photograph, as a scanner would give it, and
// the text that goes with it.
//
// The scene (a hut under snow, mountains behind) is seen through a lens whose spots are some hundredths of a
// millimetre wide. So very large scans show more of the film's grain but no more of the scene, as with a real
// 35 mm frame.
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "fogproof/pack/pack.hpp"
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

/// As its owner would write it down: two slips, a black, the head setting of the test, the rest assumed.
[[nodiscard]] Pack described_paper();
/// The same pack as it is; differs in what the owner does not know.
[[nodiscard]] Pack true_paper();
/// Densities of its test strips, a CSV file (RFC 4180): computed from a paper that differs from the described
/// one in what the owner does not know, with the scatter of a densitometer.
[[nodiscard]] std::string strip_readings();
/// An 8-bit grey scan (sRGB) of a print in two halves: the left one as it was developed, the right one
/// bleached. A slip that was only fixed lies below them.
struct DemoPrint {
    int width = 1300, height = 880;
    std::vector<std::uint8_t> codes{};
};
inline constexpr double kPrintExposure = 24, kPrintFilter = 3, kPrintRestrainer = 20, kPrintDevelop = 90,
                        kPrintBleach = 40;
inline constexpr Region kFixedSlip{90, 820, 180, 40};
inline constexpr double kFixedDensity = 0.09;
[[nodiscard]] DemoPrint demo_print(const DemoNegative&);
/// How it was made, as a labels file of one line.
[[nodiscard]] std::string demo_print_labels();

/// What the folder's README.txt says.
[[nodiscard]] std::string demo_story();

/// What is in the folder.
inline constexpr std::array kDemoFiles{"negative.tif", "print.jpg",    "print-labels.csv",
                                       "pack.toml",    "readings.csv", "README.txt"};
/// Writes folder/negative.tif (16-bit grey, no profile, its resolution that of the scan), folder/print.jpg
/// and the texts, all or none, making the folder if it is missing.
void write_demo(const std::filesystem::path& folder, double megapixels, WholeFile::Replace);

}  // namespace fogproof::demo
