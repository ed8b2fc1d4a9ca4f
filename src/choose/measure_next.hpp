// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What one more strip or print would save on the negative in hand, if it were read and fitted.
#pragma once

#include <string>
#include <vector>

#include "choose/prospects.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// A piece of paper to expose, develop, halve and read. Prints of the negative itself count: no wedge is
/// needed.
struct Offer {
    enum class Kind { strip, print, wedge };
    Kind kind;
    ToldRecipe recipe;     ///< of the print, of a strip's middle band, of the clear end of a wedge
    double sheets;         ///< it takes
    double expected_then;  ///< rms L*, of the next first sheet

    /// "a test strip of this negative through grade 2, restrainer 20 ml/L, developed 60 s, half of it
    /// bleached 58 s".
    [[nodiscard]] std::string in_words(const Pack&) const;
};

/// Test strips, the print and a wedge by a recipe whose first sheet is expected so far off; the strip also
/// through filters beside it and without restrainer. Best first. What a piece teaches is the linear-Gaussian
/// update of the drawn papers by its readings: with the tones y of the print to come and the readings z,
/// C_yy - C_yz (C_zz + R)^-1 C_zy, R being the readings' own error, the law's and the sheets'. What is learnt
/// of y along exposure, bleach and grade can then be made up for. Not modelled: answers that bend within the
/// doubt.
[[nodiscard]] std::vector<Offer> measure_next(const Printing&, Prospects&, const ToldRecipe&,
                                              double expected_now);

}  // namespace fogproof::choose
