// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a print costs in sheets: whether a test strip saves more paper than it takes.
#pragma once

#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// Share of a sheet that a test strip takes. Judgement: a sheet is cut into four.
inline constexpr double kStripShare = 0.25;

struct SheetCost {
    bool strip;       ///< make a test strip first
    double expected;  ///< sheets, the strip included
};

/// Without a strip the first sheet is right with a probability and a second one follows where it is not;
/// with a strip the first sheet is taken to be right (judgement).
[[nodiscard]] constexpr SheetCost sheet_cost(double first_sheet_good) {
    const double wasted = 1 - first_sheet_good;
    return wasted > kStripShare ? SheetCost{true, 1 + kStripShare} : SheetCost{false, 1 + wasted};
}

}  // namespace fogproof::choose
