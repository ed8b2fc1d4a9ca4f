// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The zero of seconds in words: what they were measured through, and how this negative's base + fog comes in.
#pragma once

#include <string>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "scan/scan.hpp"

namespace fogproof::report {

/// Of figures in stops from full black.
inline constexpr const char* kFullBlackByEye =
    "These figures assume that you know the time for full black exactly. Found by eye it adds doubt, which "
    "--black-time counts.";

/// Of a pack by itself: "through clear film in the carrier (not told, taken)".
[[nodiscard]] std::string zero_of_pack(const Pack&);
/// Of a pack with a negative under its enlarger; a sentence for pages. Empty where the pack has no anchor,
/// and so no seconds.
[[nodiscard]] std::string zero_of_seconds(const Pack&);
/// The part of it that all negatives share: the height of the head and the stop of the lens.
[[nodiscard]] std::string head_of_seconds(const Pack&);
/// The same for the terminal, with what is known of the negative's base + fog and the options that settle it.
[[nodiscard]] std::vector<std::string> zero_notes(const Pack&, const FilmBase&, bool has_flash);

/// The pack's enlarger with this negative in its carrier.
[[nodiscard]] Pack with_negative(Pack, const FilmBase&);

}  // namespace fogproof::report
