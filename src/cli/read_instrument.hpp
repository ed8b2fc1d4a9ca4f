// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// `read FILE` for the file of an instrument: CGATS, or a table with a column density.
#pragma once

#include <string>
#include <vector>

#include "cli/strip_options.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::cli {

/// What an instrument's file holds.
struct InstrumentFile {
    std::string table;               ///< CSV with the columns that readings have; empty of a CGATS file
    std::vector<double> densities;   ///< of a CGATS file
    std::vector<std::string> notes;  ///< things left aside
};

/// Throws Error(Fault::data) for a file that is neither, or holds no readings.
[[nodiscard]] InstrumentFile instrument_file(const std::string& path);

/// Its rows under their labels: what a row tells of itself stays, empty cells take what is typed.
struct InstrumentRows {
    std::vector<Reading> rows;
    std::vector<std::string> notes;  ///< labels that no row took, since each tells its own
};
[[nodiscard]] InstrumentRows instrument_rows(const InstrumentFile&, const StripLabels&, bool strip_is_typed,
                                             const std::string& path);

}  // namespace fogproof::cli
