// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What was read off the scan of a print, for people and for programs.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <span>
#include <string>

#include "base/remarks.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"
#include "reading/print_reading.hpp"

namespace fogproof::report {

/// A print and what it is called.
struct NamedPrint {
    std::string source, name;
    double scan_pixels;  ///< of the scan to one of the image that was read
    PrintReading read;
};
/// One line a tone: the negative's density as it lies over the paper, density of the print, its own doubt,
/// area.
[[nodiscard]] std::string prints_text(std::span<const NamedPrint>);
/// Frames, tones, and the rows written. `corners` are the first frame's, upright, from the top left around to
/// the bottom left, in pixels of the scan.
/// Each with its pieces, their corners and tones, and its handwork.
[[nodiscard]] nlohmann::ordered_json as_json(std::span<const NamedPrint>);
[[nodiscard]] std::string prints_json(std::span<const NamedPrint>, std::span<const Reading> rows,
                                      const Remarks&);

}  // namespace fogproof::report
