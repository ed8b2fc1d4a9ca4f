// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Grades as filter sets number them: 00, 0, 1/2, 1, 1 1/2 ... 5. As a number 00 is -1, a step softer than 0;
// readings files are written so, since spreadsheets make 0 of 00.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

inline constexpr double kGrade00 = -1;
inline constexpr char kGradesAllowed[] = "00, 0, 0.5 (or 1/2), 1, 1.5 (or 1 1/2) ... 5";

/// "00", "0", "2.5", "2 1/2", "1/2"; nothing for what is no grade. 00 is never read as 0.
[[nodiscard]] std::optional<double> grade_in(std::string_view text);
/// The same for a command line, where 00 is written as such and nothing lies below 0; Error(Fault::usage)
/// with `place` in front otherwise.
[[nodiscard]] double grade_told(std::string_view text, const std::string& place);
/// "00", "0", "2.5", "2.25": as somebody told it. A grade that was computed is known to tenths at most.
[[nodiscard]] std::string grade_name(double grade, int digits = 2);
/// "through grade 2"; graded paper is printed "without a filter".
[[nodiscard]] std::string filter_words(Contrast, double grade);

}  // namespace fogproof::pack
