// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The labels that a planned print will have, so that its scan can be read without typing its recipe again.
#pragma once

#include <string>

#include "fogproof/rooms.hpp"
#include "proof/work_plan.hpp"

namespace fogproof::report {

/// The text of a labels file of one line. `negative` is the path of its scan from the file's folder, `file`
/// what the file is called.
[[nodiscard]] std::string print_labels_text(const PlannedPrint&, const std::string& negative,
                                            const std::string& file);

}  // namespace fogproof::report
