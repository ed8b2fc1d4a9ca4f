// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// `read SCAN --labels FILE` and `read SCAN --labels-out FILE`: the file that says what lies on a scan.
#pragma once

#include <string>
#include <vector>

#include "cli/console.hpp"
#include "cli/read_print.hpp"
#include "fogproof/rooms.hpp"
#include "reading/piece_labels.hpp"

namespace fogproof::cli {

/// The labels that are asked for, none if none are. Those of the one print that a scan is of go into the
/// request as if they had been typed; what was typed stays.
[[nodiscard]] std::vector<PieceLabels> labels_of(ReadRequest&);
/// The negative of a line, found from where the labels file lies.
[[nodiscard]] std::string negative_of(const ReadRequest&, const PieceLabels&);
/// Whether a line is of a print that is to be read.
[[nodiscard]] bool is_print(const PieceLabels&);
/// How a print is held against its negative: as typed, and for the rest as its line says.
[[nodiscard]] PrintOfNegativeOptions print_options_for(const ReadRequest&, const PieceLabels&);
/// Writes the labels of a scan's pieces, to be filled in.
void write_labels(const ReadRequest&, const Console&);

}  // namespace fogproof::cli
