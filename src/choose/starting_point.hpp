// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The answer to "what do I do next, and how sure are you": recipes with the spread that the pack's doubts
// leave.
#pragma once

#include <optional>
#include <vector>

#include "choose/measure_next.hpp"
#include "choose/prospects.hpp"
#include "choose/recipe_search.hpp"
#include "fogproof/print/working_curve.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// Two prints whose exposures differ by less look alike to most eyes. Judgement.
inline constexpr double kNoticeableStops = 1.0 / 6;

/// Papers by which what is told is judged.
inline constexpr std::size_t kToldDraws = 64;
inline constexpr std::uint64_t kToldSet = 2;

struct StartingPoint {
    FoundRecipe found;
    Recipe recipe;  ///< at +0 stops: its exposure is the starting one, for what is wanted
    Proof proof;
    Interval exposure_s;      ///< 95 %: the exposure that the real pack will want for the same tones
    Interval bleach_s;        ///< 95 %: the time that reaches the same share of the clearing dose
    double first_sheet_good;  ///< probability that this exposure is within kNoticeableStops of the wanted one
    Interval lightness_error{};  ///< rms L* from what is wanted, as expected of the first sheet; 95 %
    double lightness_error_after_strip = 0;  ///< expected, exposed by the told test_strip()
    bool bleach_is_decided = false;          ///< by the printer; nothing was sought
};

struct StartingPoints {
    StartingPoint best;
    std::vector<StartingPoint> by_grade;      ///< the best at each whole grade of the pack
    std::optional<StartingPoint> unbleached;  ///< the best without any bleach, where that is left open
    std::size_t tried;
    TargetDoubt target;
    std::optional<StartingPoint> after_strip{};  ///< another recipe that a strip makes the safer bet, if any
    std::vector<Offer> measure_next{};           ///< what would help the best recipe, best first
};

/// Chosen by Choice; what is told of the recipes comes from papers that took no part in choosing them. Where
/// these papers expect more of the best recipe whose filter and baths were read, that is told as the best.
[[nodiscard]] StartingPoints starting_points(const Printing&, const Wanted&, const SearchBounds&);
/// The same of prints with this local work, whose places the printing counts: light, local bleach and fog of
/// every place are counted in exposure, choice and all that is told. Seconds of a work, and all burns through
/// other filters, are held against the exposure that would be best without them.
[[nodiscard]] StartingPoints starting_points(const Printing&, const Wanted&, const SearchBounds&,
                                             const std::vector<LocalWork>&);

/// The recipe of a point for whoever carries it out later: with its seconds, its bath and its development.
/// Without an anchor its stops are those from the fresh print's start, which `print` counts from.
[[nodiscard]] Recipe written_out(const StartingPoint&, const Printing&);

/// L* by which a test strip must bring the print closer to be worth its paper. Judgement: an eye tells about
/// 1 apart.
inline constexpr double kWorthAStrip = 0.3;
[[nodiscard]] bool strip_pays(const StartingPoint&);

/// A test strip in the finest of kStripSteps by which seven exposures, the likely one in the middle, cover
/// the interval of an exposure. Never fewer: further bands cost no paper, and find what no interval counts,
/// that today's light is another (todays_light.hpp).
struct TestStrip {
    double step_stops;
    std::vector<Seconds> exposures;  ///< of each band, in full
};
[[nodiscard]] TestStrip test_strip(const Interval& exposure_s);

}  // namespace fogproof::choose
