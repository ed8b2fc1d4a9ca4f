// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What was read off one scan, for people and for programs.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "base/remarks.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"
#include "reading/strip_reading.hpp"
#include "report/print_report.hpp"

namespace fogproof::report {

/// A strip and what it is called.
struct NamedStrip {
    std::string source, name;
    StripReading read;
    FlatbedDoubt doubt{};  ///< of its scan
};
/// One line a step: number, density, scatter, pixels; then how far to trust them.
[[nodiscard]] std::string strips_text(std::span<const NamedStrip>);
/// Strips, steps, and the rows written.
/// `prints`: those among the pieces of the same scans.
[[nodiscard]] std::string strips_json(std::span<const NamedStrip>, std::span<const NamedPrint> prints,
                                      std::span<const Reading> rows, const Remarks&);

}  // namespace fogproof::report
