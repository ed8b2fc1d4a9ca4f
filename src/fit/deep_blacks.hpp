// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Blacks deeper than the paper's surface can show: light from the surface lies over every tone.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// Takes a surface that shows the blacks that were read, where the pack's own cannot, and says so: a guess
/// that nobody has told. A single patch tells nothing: it may be mistyped.
[[nodiscard]] std::optional<std::string> deepen_surface(Pack&, std::span<const Reading>);

/// What the pack stated stays what the next fit starts from.
void keep_stated_surface(FitRecord&, const Pack& stated);

}  // namespace fogproof::fit
