// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The readings among which a wrong label is sought.
#pragma once

#include <span>
#include <vector>

#include "fit/suspicions.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// All, or of many those of the strips most out of line with a fit and some others: these tell what a strip
/// should be nearly as well as all do.
[[nodiscard]] std::vector<Reading> weighed_for_labels(const Pack& nominal, std::span<const Reading>,
                                                      const ErrorSizes&, std::span<const double> densities);

}  // namespace fogproof::fit
