// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a worksheet shows beside its words: the print before and after the bleach, its curve, its tones.
#pragma once

#include <vector>

#include "fogproof/render/scan.hpp"
#include "fogproof/report/work_plan.hpp"

namespace fogproof {

[[nodiscard]] std::vector<Block> worksheet_pictures(const Scan&, const PlannedPrint&);

}  // namespace fogproof
