// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A flatbed scan made even and given its scale of densities, before anything on it is read.
#pragma once

#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/strip_measure.hpp"
#include "reading/strip_reading.hpp"

namespace fogproof::reading {

struct CalibratedScan {
    ReflectionImage image;  ///< with the scanner's light evened out
    DensityOfLight scale;
    std::vector<Region> known;  ///< patches of known density, in pixels of the image
    std::vector<std::string> notes;
};
/// Throws Error(Fault::usage) for a patch outside of the scan, Error(Fault::data) for patches that contradict
/// each other or are not even.
[[nodiscard]] CalibratedScan calibrated(const ReflectionImage&, const StripRequest&);

/// A region of the scan in pixels of the image. Throws Error(Fault::usage) naming `what`.
[[nodiscard]] Region in_image(const Region&, const ReflectionImage&, const std::string& what);

}  // namespace fogproof::reading
