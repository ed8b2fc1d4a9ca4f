// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What to see on the unexposed border when a print is due out of the bleach.
#pragma once

#include <optional>
#include <string>

#include "fogproof/redevelop/redevelop.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// A sentence for a share of the clearing dose in percent (nothing: the sheet has no fog), and for the L* by
/// which the border is then short of the slip that was only fixed. Within a twentieth of clearing counts as
/// clearing: no eye tells it on a wet sheet (judgement). Before a toner that tones what was bleached the
/// border says nothing of the print; nor does one with more fog than the picture, as sheets have it that are
/// fogged from their edges.
[[nodiscard]] std::string pull_rule(std::optional<double> clearing_percent, double border_short, Toner,
                                    bool has_edge_fog);

}  // namespace fogproof::report
