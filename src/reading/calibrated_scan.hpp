// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A flatbed scan made even and given its scale of densities, before anything on it is read.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/flatbed_doubt.hpp"
#include "reading/scan_pieces.hpp"
#include "reading/strip_measure.hpp"
#include "reading/strip_reading.hpp"

namespace fogproof::reading {

/// A patch of known density where it lies.
struct KnownPlace {
    KnownPatch patch;
    StripPlace place{};  ///< in pixels of the image
    std::array<ScanPoint, 4> corners{};
};

struct CalibratedScan {
    ReflectionImage image;  ///< with the scanner's light evened out
    Region part;            ///< the part that is looked at, in pixels of the image
    ScanPieces pieces;      ///< on that part
    DensityOfLight scale;
    FlatbedDoubt doubt;
    std::vector<KnownPlace> known;
    std::vector<std::string> notes;
    bool is_evened = false;  ///< by what shows how the scanner's light falls off
    std::vector<std::string> warnings{};
    bool is_doubted = false;  ///< a warning tells that its densities are off
};
/// Throws Error(Fault::usage) for a patch outside of the scan, Error(Fault::data) for patches that contradict
/// each other, are not even or are not there.
[[nodiscard]] CalibratedScan calibrated(const ReflectionImage&, const StripRequest&);

/// The scan with its light evened out and its pieces found, before anything is known of them.
[[nodiscard]] CalibratedScan evened(const ReflectionImage&, const StripRequest&);

/// A region of the scan in pixels of the image. Throws Error(Fault::usage) naming `what`.
[[nodiscard]] Region in_image(const Region&, const ReflectionImage&, const std::string& what);

}  // namespace fogproof::reading
