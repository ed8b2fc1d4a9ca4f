// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What was found for a picture as a whole, printed with its local work.
#pragma once

#include <vector>

#include "choose/starting_point.hpp"
#include "fogproof/print/local_work.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// The same recipes in the same exposures, each with this local work: it is part of the recipe and of the
/// proof. What is expected of the first sheet stays that of the picture without it.
[[nodiscard]] StartingPoints with_local_work(StartingPoints, const Printing&, const std::vector<LocalWork>&);

}  // namespace fogproof::choose
