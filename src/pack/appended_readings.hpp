// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Readings that are added to a file together with other outputs of a command.
#pragma once

#include <filesystem>
#include <span>

#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::system {
class OutputSet;
}

namespace fogproof::pack {

/// As append_readings() of a path and rows, placed together with what the set holds already.
void append_readings(const std::filesystem::path&, std::span<const OriginalRows>, OutputSet&);
/// Throws what append_readings would; asked before other outputs are written.
void refuse_unappendable(const std::filesystem::path&, std::span<const OriginalRows>);

}  // namespace fogproof::pack
