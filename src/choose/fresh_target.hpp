// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the print should have looked like: the same negative on the same paper before it fogged.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "negative/tones.hpp"

namespace fogproof::choose {

/// Ends of a frame's tonal range, as quantiles of its area: the half percent at either end is left to specks,
/// catch-lights and dust (judgement).
inline constexpr double kThinEnd = 0.005, kDenseEnd = 0.995;

/// The fog-free print: L* wanted for each tone of the frame, in the order of the tones given.
struct FreshTarget {
    double iso_range;  ///< ISO range wanted: 100 times the frame's density range, within what the paper has
    double grade;      ///< the grade of that range, or the one asked for
    bool is_asked;     ///< that grade was asked for
    bool own_filter;   ///< the pack has a filter for it; else a paper like it of that grade is meant
    LogExposure exposure;    ///< clear-film exposure that centres the frame's range between T and S
    Seconds time;            ///< the same at the enlarger's setting
    double white_lightness;  ///< of its unexposed border
    std::vector<double> lightness;

    /// Its grade: as asked for, else to tenths.
    [[nodiscard]] std::string named_grade() const;
};

/// A paper before it fogged, and the light it is printed with.
struct FreshSheet {
    PaperModel paper;
    Filter filter;
};
/// Fresh graded paper of a grade's ISO range that has all else from the pack: what a pack is held against
/// that has no filter for the grade.
[[nodiscard]] FreshSheet fresh_graded(Pack, double grade);

/// By the rule of ISO 6846's introduction: paper range equals the effective density range of the negative.
/// `tones` are those of the frame; flare and Callier are the enlarger's. A grade that is asked for stands in
/// for the rule's, whether the pack has a filter for it or not.
[[nodiscard]] FreshTarget fresh_target(const Tones& frame, std::span<const Tone> tones, const Pack&,
                                       const PaperModel&, std::optional<double> grade = std::nullopt);

}  // namespace fogproof::choose
