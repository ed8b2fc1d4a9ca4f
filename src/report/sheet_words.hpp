// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Words and amounts as worksheets show them.
#pragma once

#include <string>

#include "fogproof/print/working_curve.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::report {

/// "40 s (25 s to 65 s)".
[[nodiscard]] std::string roughly(const Interval& seconds);
/// A volume as a measuring cylinder can give it: whole millilitres, tenths under ten.
[[nodiscard]] std::string millilitres(double ml);
/// Two significant digits and no more than whole milligrams.
[[nodiscard]] std::string milligrams(double grams);
/// Why a print is not bleached: "it would gain less than it costs", "as you decided".
[[nodiscard]] std::string why_no_bleach(bool is_decided);
/// "35 min", rounded up to five minutes.
[[nodiscard]] std::string minutes(double seconds);

}  // namespace fogproof::report
