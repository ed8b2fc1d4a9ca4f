// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A band of the printer's own test strip that looks as the told one was predicted: a reading of the paper's
// speed, or of today's light.
#pragma once

#include <optional>
#include <string>

#include "choose/same_frame.hpp"
#include "choose/starting_point.hpp"
#include "choose/todays_light.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

struct SeenBand {
    int number;         ///< from 1, of the strip that is told
    int bands;          ///< of that strip
    Seconds seen;       ///< the real band's exposure
    Seconds told;       ///< the exposure whose print it looks like
    double step_stops;  ///< from band to band
    Reading reading;
    std::optional<TodaysLight> today{};  ///< where the pack was read in the light of another session

    /// What looks right may lie beyond.
    [[nodiscard]] bool is_shortest() const { return number == 1; }
    [[nodiscard]] bool is_longest() const { return number == bands; }
};

/// The band by its number, on the strip told for a point of a negative so named. The reading says: the tone
/// within the band's own place that tells exposures apart best, exposed as the real band was, has the density
/// that the told exposure was to give it, as developed. It is doubted by half a band (judgement: the eye
/// chooses the nearest of the bands, and paper and lamp wander about as much), and by kSessionsDiffer where
/// the pack was read in the light of another session: there the light of today, and not the paper, is what
/// explains it. Throws Error(Fault::usage) for a number that the strip does not have and Error(Fault::config)
/// for a pack without an anchor, whose strips have no seconds.
[[nodiscard]] SeenBand seen_band(const Printing&, const StartingPoint&, int number,
                                 const std::string& negative, const TonePlane& frame);
/// The bounds, all but the exposure held as the strip had it.
[[nodiscard]] SearchBounds held_to_strip(const StartingPoint&, SearchBounds);

}  // namespace fogproof::choose
