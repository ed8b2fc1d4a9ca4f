// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What lay in the carrier, as files and command lines say it.
#pragma once

#include <string>
#include <string_view>

#include "fogproof/enlarger/enlarger.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// Base + fog of usual black-and-white film over an empty carrier, taken where nobody knows better: 0.2 to
/// 0.35 (from memory; slow sheet film lies lower, old film higher).
inline constexpr double kUsualBaseFog = 0.25;
/// Densest film that may lie in the carrier as a zero of seconds. Judgement.
inline constexpr double kDensestCarrier = 2;
inline constexpr char kCarrierAllowed[] = "empty, clear-film, or the density of the film in it, 0 to 2";

/// "empty", "clear-film" ("clear film") or a density; Error(Fault::usage) with `place` in front otherwise.
[[nodiscard]] Carrier carrier_in(std::string_view text, const std::string& place);
/// "empty" as 0, or a density; clear film is refused for want of its density.
[[nodiscard]] double carrier_density_in(std::string_view text, const std::string& place);
/// As it stands in the file of a pack: "empty" and "clear film" in quotes, a density plain; empty if untold.
[[nodiscard]] std::string carrier_entry(const Carrier&);
/// "an empty carrier", "clear film in the carrier", "film of density 0.25 in the carrier".
[[nodiscard]] std::string in_words(const Carrier&);

}  // namespace fogproof::pack
