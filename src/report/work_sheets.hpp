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
#include "report/worksheet_pictures.hpp"

namespace fogproof::report {

/// One printed sheet, and one more where there is local work; charts and guesses are for the screen. `labels`
/// is the file beside it that holds the print's, if one is written.
[[nodiscard]] Document print_sheet(const PlannedPrint&, const WorkTerms&, WorksheetPictures = {},
                                   const std::string& labels = {});
[[nodiscard]] Document session_sheet(const std::vector<SessionPrint>&, const Session&, const Pack&,
                                     const WorkTerms&);
/// All numbers of both as JSON.
[[nodiscard]] std::string plan_json(const std::vector<SessionPrint>&, const Session&, const Pack&,
                                    const WorkTerms&);

}  // namespace fogproof::report
