// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One exposure through one filter as two through the softest and the hardest, and the flash a sheet bears.
#pragma once

#include <optional>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

struct SplitExposures {
    double soft_grade, hard_grade;
    Seconds soft, hard;
};

/// The pair that gives the paper the same blue and green light, and so the same curve: two linear equations
/// in t^p. Nothing where a time would be negative or the two filters are one. The pack must offer the grade.
[[nodiscard]] std::optional<SplitExposures> split_exposures(const Pack&, const PaperModel&, double grade,
                                                            Seconds);

/// Longest exposure without the negative, through a grade, that lifts the border by no more than 0.01 in
/// density (a quarter of the first printable tone): more would veil. For the development of the print.
[[nodiscard]] Seconds longest_flash(const Pack&, const PaperModel&, double grade, const DevelopStep&);

/// The same through the filter that a flash is usually given, the softest of the pack.
struct Flash {
    double grade;
    Seconds longest;
};
[[nodiscard]] Flash soft_flash(const Pack&, const PaperModel&, const DevelopStep&);

}  // namespace fogproof::choose
