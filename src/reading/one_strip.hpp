// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One strip at its place on a scan: its steps, or why they cannot be read.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/calibrated_scan.hpp"
#include "reading/scan_origin.hpp"
#include "reading/strip_measure.hpp"

namespace fogproof::reading {

struct OneStrip {
    std::optional<StripReading> reading;  ///< nothing where there is none, or none to be used
    std::vector<std::string> faults;      ///< what would be refused
    std::vector<std::string> notes;
    bool is_plain = false;  ///< a patch without steps
};
/// How places on these pieces' scan are to be looked at.
[[nodiscard]] PlaceRequest place_request(const ScanPieces&, std::optional<int> steps);
/// The place lies in a part of the calibrated image, and the origin says where that is.
[[nodiscard]] OneStrip strip_at(const ReflectionImage& part, const ScanOrigin&, const StripPlace&,
                                const PlaceRequest&, const StripRequest&, const DensityOfLight&);

}  // namespace fogproof::reading
