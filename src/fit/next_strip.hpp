// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which strip to print next: the one whose readings would narrow the next print's densities most.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pack/worked_pack.hpp"

namespace fogproof::fit {

struct NextStrip {
    /// A wedge under one treatment; or, without one, bands of doubled times, or a print read against its
    /// negative, each with one half bleached.
    enum class Kind { wedge, test_strip, print };
    Kind kind;
    std::optional<double> grade;  ///< nothing on graded paper
    double restrainer_ml_l, bleach_s;
    double print_grade;  ///< of the next print
    double doubt_now,
        doubt_then;  ///< rms half width of the 95 % interval over the tones of the next print, D

    /// "a wedge through grade 4, restrainer 10 ml/L, bleached 45 s".
    /// "a test strip through grade 4, restrainer 10 ml/L, one half bleached 45 s".
    [[nodiscard]] std::string in_words() const;
};

/// The best piece of each kind, the one that narrows most first. Nothing where the pack leaves nothing open.
[[nodiscard]] std::vector<NextStrip> next_pieces(const WorkedPacks&);

/// The best wedge. Every filter of the pack, two amounts of restrainer and three bleach times are weighed
/// against a print through the middle filter, bleached until clear. The pack's doubts are taken as normal,
/// answers as linear in them: the covariance of the print's densities given a strip's readings is C_yy - C_yz
/// (C_zz + s^2 I)^-1 C_zy. Nothing where the pack leaves nothing open.
[[nodiscard]] std::optional<NextStrip> next_strip(const WorkedPacks&);

}  // namespace fogproof::fit
