// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How far a scan was turned to set its frame upright, for programs. People are told by a note.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "fogproof/rooms.hpp"
#include "picture/picture_options.hpp"

namespace fogproof::report {

/// Adds "degrees_turned", clockwise; nothing where the scan was not turned.
void tell_turned(nlohmann::ordered_json&, double degrees);
/// The same for the metadata of a picture.
[[nodiscard]] Description turned_description(double degrees);

}  // namespace fogproof::report
