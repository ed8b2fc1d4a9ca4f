// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Filters whose strips show them in another order of contrast than their grades.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fit/fitter.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// A warning where a harder filter surely fits as softer than one below it: no set is made so, and a fit
/// alone takes it for a strange set. Filters through which no strip was exposed say nothing.
[[nodiscard]] std::vector<std::string> filters_out_of_order(const Prior&, std::span<const Reading>,
                                                            const Fitted&);

}  // namespace fogproof::fit
