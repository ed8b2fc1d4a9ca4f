// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The proofs beside a worksheet: its own recipe, and what another filter or depth of bleach would change.
#pragma once

#include "fogproof/rooms.hpp"
#include "proof/work_plan.hpp"
#include "proof/worked_grid.hpp"

namespace fogproof::proof {

/// Development, restrainer and bleach bath are those of the plan in every print; grade (on graded paper:
/// exposure) goes across and bleach down, with the plan's own among the values, so that one print of the grid
/// is the one recommended, and is marked. Exposures start where they do for what the plan wants.
[[nodiscard]] GridRequest plan_proofs(const PlannedPrint&, const Wanted&);

}  // namespace fogproof::proof
