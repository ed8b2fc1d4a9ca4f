// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Densities out of a measuring instrument's CGATS file (ISO 28178), read by Little CMS.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fogproof/base/quantity.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::reading {

struct InstrumentReading {
    std::string sample;  ///< as the file names it; empty when it does not
    PrintDensity density;
};
struct InstrumentReadings {
    std::vector<InstrumentReading> rows;  ///< in the order of the file
    std::vector<std::string> notes;
};

/// True when the text has the markers of a CGATS file.
[[nodiscard]] bool is_cgats(std::string_view text);
/// The visual density of every sample: the column D_VIS or DENSITY, else out of XYZ_Y or LAB_L, with a note.
/// Throws Error(Fault::data) for a file without any of them or with cells that are no densities.
[[nodiscard]] InstrumentReadings cgats_readings(std::string_view text, const std::string& place);

}  // namespace fogproof::reading
