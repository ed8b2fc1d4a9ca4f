// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Strips whose light a fit believes only by papers, filters or restrainers that hardly exist: seconds that
// were mistyped, another head setting.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fit/fitter.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// A warning for each way of exposing and developing whose strips came out as if by stops more or less light
/// than they are told to have had, where the pack's speed was known before. Speed, filter and restrainer take
/// that upon themselves together, so that no density contradicts it.
[[nodiscard]] std::vector<std::string> light_doubts(const Prior&, std::span<const Reading>, const Fitted&);

}  // namespace fogproof::fit
