// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a reader of a fit must know besides its numbers: units that are hardly meant, strips out of line.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fit/fitter.hpp"
#include "fogproof/fit/pack_fit.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// Strips are named where no contradiction with its mend explains them.
[[nodiscard]] std::vector<std::string> fit_warnings(const Prior&, std::span<const Reading>, const ErrorSizes&,
                                                    const Fitted& all, std::span<const Contradiction>,
                                                    bool is_sheet_stated);

}  // namespace fogproof::fit
