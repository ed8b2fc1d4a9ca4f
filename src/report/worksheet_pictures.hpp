// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a worksheet shows beside its words: the print before and after the bleach, its curve, its tones.
#pragma once

#include <vector>

#include "fogproof/rooms.hpp"
#include "picture/grid.hpp"
#include "proof/work_plan.hpp"
#include "report/document.hpp"
#include "scan/scan.hpp"

namespace fogproof::report {

struct WorksheetPictures {
    std::vector<Block> print;   ///< before and after the bleach, with the places to watch
    std::vector<Block> masks;   ///< of each local work
    std::vector<Block> charts;  ///< tones and curve
};
[[nodiscard]] WorksheetPictures worksheet_pictures(const Scan&, const PlannedPrint&, const LocalMasks& = {});
/// The finished print, small enough for a session's sheet to show all of its prints.
[[nodiscard]] SmallPicture session_picture(const Scan&, const PlannedPrint&, const LocalMasks& = {});

}  // namespace fogproof::report
