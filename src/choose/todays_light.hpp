// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The light of one session. Another lamp, height or developer than on the day of the pack's readings makes
// prints darker or lighter, though the paper is the same: a test strip tells, and the pack stays what it is.
#pragma once

#include "choose/told_recipe.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// log10; by so much the light of a session differs from that of the pack's readings, one standard deviation.
/// Judgement: a third of a stop, what an aged lamp, a fresh developer or a guessed height amount to.
inline constexpr double kSessionsDiffer = 0.1;

/// What a strip says of all papers that the pack may be: each shows the tone so, today, in these seconds.
struct TodaysLight {
    double log_gain;   ///< log10 of today's light over that of the pack's readings, as likely as any
    ToldRecipe strip;  ///< before any bleach, in the seconds that look as the told ones were to look
    double doubt;      ///< of these seconds, one standard deviation of their log10
    NegativeDensity tone;
};

/// The pack under an enlarger whose light is so much brighter still: all its seconds are as many times
/// shorter.
[[nodiscard]] Pack in_light(Pack, double log_gain);
/// What gives in the light of the pack's readings the print that these seconds give today.
[[nodiscard]] Seconds in_light_of_readings(Seconds today, const Enlarger&);

}  // namespace fogproof::choose
