// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a fit would be without some of its strips, and what it would then say of them: linear about the fit of
// all, so that many strips are asked about in the time of one fit.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fit/fitter.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

struct LeftOut {
    double cost = 0;    ///< of the others alone
    double lost = 0;    ///< the same and what the readings left out cost when they are good
    double sigmas = 0;  ///< how far the strips left out lie beyond what the others and all errors explain
    double rms = 0;     ///< D, of the strips left out
};
[[nodiscard]] LeftOut left_out(const Fitted& all, std::span<const Reading>, const Pack& nominal,
                               const ErrorSizes&, std::span<const std::string> strips);

/// A strip that the others do not expect.
struct OutOfLine {
    std::string strip;
    double rms;  ///< D, when the others alone are fitted
    double sigmas;
};
/// Errors are learnt anew without each strip, since a strip out of line has made them larger.
[[nodiscard]] std::vector<OutOfLine> strips_out_of_line(const Fitted& all, std::span<const Reading>,
                                                        const Pack& nominal, const ErrorSizes&,
                                                        bool is_sheet_stated);

}  // namespace fogproof::fit
