// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Gathers what makes a scan suspicious out of its file, its frame and its surroundings.
#pragma once

#include "fogproof/rooms.hpp"
#include "negative/suspicion.hpp"
#include "scan/scan_framing.hpp"

namespace fogproof::scan {

/// The colour of a scan that has any, as its channels tell it.
[[nodiscard]] std::optional<ScanColour> colour_of(const ScanPixels& lying, const Framing&);
/// Whether its densities are to be those of blue and green.
[[nodiscard]] bool wants_blue_and_green(const ScanOptions&, const std::optional<ScanColour>&);
[[nodiscard]] ScanEvidence scan_evidence(const ScanPixels&, const ScanOptions&, const Framing&,
                                         std::optional<ScanColour>);

}  // namespace fogproof::scan
