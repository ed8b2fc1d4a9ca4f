// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// Whether the filters are the standard's, as they are or as a fit moved them, and not a set that the pack's
/// owner described.
[[nodiscard]] bool has_standard_filters(const Pack&);

/// The same paper without its readings and the record of its fit: one that somebody's pack may be, of which
/// nothing was read.
[[nodiscard]] Pack without_fit(Pack);

}  // namespace fogproof::pack
