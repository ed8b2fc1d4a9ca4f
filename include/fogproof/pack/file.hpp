// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The file of a pack: TOML, versioned, commented, made to be edited by hand.
//
// A value stands either plain, and then counts as given by the pack's owner, or as
//     key = { value = 0.31, sd = 0.02, from = "measured" }      from: measured, partly-measured, given or
//     assumed
// with sd one standard deviation in the unit of the value. A missing key takes the default, marked assumed.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// Throws Error(Fault::no_input) when the file cannot be read and otherwise as parse_pack does. A map of the
/// edges' fog is looked for beside the file.
[[nodiscard]] Pack read_pack(const std::filesystem::path&);
/// The pack for a file in that folder (empty: the current one): its map named as from there.
[[nodiscard]] Pack with_map_as_from(const std::filesystem::path& folder, Pack);
/// Throws Error(Fault::data, "PLACE:LINE: found; allowed ...") for the first fault in the text.
[[nodiscard]] Pack parse_pack(std::string_view text, const std::string& place);
/// The text of a pack's file; parse_pack gives the same pack back. Refuses what check(Pack) refuses.
[[nodiscard]] std::string written(const Pack&);

}  // namespace fogproof::pack
