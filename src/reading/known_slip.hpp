// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <optional>
#include <span>
#include <string>

#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"
#include "reading/known_patch.hpp"

namespace fogproof::reading {

/// A slip that was only fixed is a reference of its scan, and a reading of the paper's white, of as much
/// doubt as such slips: the same for all of them, since each stands for the same usual density. Nothing where
/// no known patch is one.
[[nodiscard]] std::optional<Reading> known_slip(std::span<const KnownPatch>, const std::string& scan);

}  // namespace fogproof::reading
