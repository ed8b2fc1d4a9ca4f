// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Fog of the sheets' edges told: in words for people, in numbers for programs.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "choose/edge_advice.hpp"
#include "fogproof/rooms.hpp"
#include "picture/picture_options.hpp"
#include "pixels/sheet_fog.hpp"

namespace fogproof::report {

/// How fogged the edges are, how the picture lies on the sheet, and how much of that fog reaches it.
[[nodiscard]] std::string edge_fog_sentence(const SheetFog&, const LevelGrid& over_the_frame);
/// The same for programs.
[[nodiscard]] nlohmann::ordered_json edge_fog_json(const SheetFog&, const LevelGrid& over_the_frame);
/// How the picture lies on the sheet, for the metadata of a picture.
[[nodiscard]] Description sheet_description(const SheetFog&);

/// What it costs the picture, and what would cost less; one sentence each.
[[nodiscard]] std::vector<std::string> edge_advice_words(const EdgeAdvice&);
[[nodiscard]] nlohmann::ordered_json edge_advice_json(const EdgeAdvice&);

}  // namespace fogproof::report
