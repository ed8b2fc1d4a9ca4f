// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Sheets for the darkroom wall: one for each negative, one for the session.
#pragma once

#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "proof/work_plan.hpp"
#include "report/document.hpp"

namespace fogproof::report {

/// `pictures` are for the page.
[[nodiscard]] Document print_sheet(const PlannedPrint&, const WorkTerms&, std::vector<Block> pictures = {});
[[nodiscard]] Document session_sheet(const std::vector<SessionPrint>&, const Session&, const Pack&,
                                     const WorkTerms&);
/// All numbers of both as JSON.
[[nodiscard]] std::string plan_json(const std::vector<SessionPrint>&, const Session&, const Pack&,
                                    const WorkTerms&);

}  // namespace fogproof::report
