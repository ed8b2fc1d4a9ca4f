// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How amounts are shown to a printer: no more digits than are meant.
#pragma once

#include <string>

#include "choose/printing.hpp"
#include "fogproof/base/quantity.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/print/working_curve.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// Two significant digits in seconds, and a third where they would be off by more than 1/24 stop: "8.4 s",
/// "12 s", "10.4 s", "130 s". Whoever works by it sets this time, however roughly it is known.
[[nodiscard]] std::string shown(Seconds);
/// The same with its 95 %: "18 s (7.9 s to 41 s)"; "none" for no time. No interval of guesses is told.
[[nodiscard]] std::string shown_seconds(const Interval&);
/// A figure of a number that is known so, with as many decimals as that has a use for: two digits of the
/// narrower half.
[[nodiscard]] std::string shown_number(double figure, const Interval& known);
/// Two decimals: "1.94".
[[nodiscard]] std::string shown(PrintDensity);
/// rms L* as a distance that is expected: tenths under 10, else whole.
[[nodiscard]] std::string shown_distance(double lightness_error);
/// The same with its 95 %: "3.1 L* (1.4 to 7.2)".
[[nodiscard]] std::string shown_distance(const Interval& lightness_error);
/// "1 reading", "97 readings".
[[nodiscard]] std::string readings_counted(std::size_t);
/// "measured", "partly measured", "given" or "assumed".
[[nodiscard]] std::string shown(Origin);
/// What restrainer there is: "potassium bromide"; "agent not named" where nobody says.
[[nodiscard]] std::string restrainer_words(RestrainerAgent);
/// A share of one as percent, "under 1 %" where it would round to nothing.
[[nodiscard]] std::string shown_percent(double share);
/// "full black +0.4 stop".
[[nodiscard]] std::string shown_black_stops(double);
/// The same with half its 95 %, of an exposure that is doubted so: "full black +0.4 stop (+/- 1.1)".
[[nodiscard]] std::string shown_black_stops(const Interval& exposure_s, double stops);
/// All exposures of a proof: seconds on an anchored pack ("12 s", "4 s at 0 + 7 s at 5"), else stops from the
/// shortest time for full black through clear film, of each through its own filter ("full black +0.4 stop").
[[nodiscard]] std::string shown_exposure(const Proof&, bool anchored);
/// What was flashed without the negative, behind the exposures: ", flash 0.2 s at 0"; nothing where nothing
/// was.
[[nodiscard]] std::string shown_flashes(const Proof&);
/// "no bleach" or "bleach 22 s".
[[nodiscard]] std::string shown_bleach(const Proof&);

}  // namespace fogproof::report
