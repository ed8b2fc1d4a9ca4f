// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/frame_search.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "base/quantile.hpp"
#include "scan/rim_holder.hpp"

namespace fogproof::scan {
namespace {

// Judgement, all of them.
constexpr double kThinnerInside = 0.01;  // share of the frame that may be thinner than clear film (pinholes)
constexpr double kRimInside = 0.005;     // share of the frame that may be holder
constexpr double kClearAlong = 0.8;      // share of a side that clear film takes just inside a holder
constexpr double kSmallestShare = 0.3;   // of the scan's width and height
constexpr double kDeepestMargin = 0.08;  // of the scan; clear edge wider than this is not of interest

int count_seen(const FrameSides& sides, FrameSide::Seen seen) {
    return int(
        std::count_if(sides.begin(), sides.end(), [&](const FrameSide& each) { return each.seen == seen; }));
}

/// Drawn in to the deeper end of an askew side and one mixed pixel further.
std::array<double, 4> insets(const SmallScan& scan, const FrameSides& sides) {
    std::array<double, 4> inset{};
    for (const Side side : kSides) {
        if (sides[side].seen == FrameSide::Seen::nothing) continue;
        const Stretch stretch = between(scan, sides, side);
        inset[side] =
            1 + std::max({0.0, sides[side].line.depth(stretch.first), sides[side].line.depth(stretch.last)});
    }
    return inset;
}

bool is_plausible(const SmallScan& scan, const std::array<double, 4>& inset, const Background& background) {
    const int left = int(inset[kLeft]), right = scan.width - int(inset[kRight]);
    const int top = int(inset[kTop]), bottom = scan.height - int(inset[kBottom]);
    if (right - left < kSmallestShare * scan.width || bottom - top < kSmallestShare * scan.height)
        return false;
    double thinner = 0;
    for (int y = top; y < bottom; ++y)
        for (int x = left; x < right; ++x) thinner += scan.at(x, y) < background.clear - 2 * kClearTolerance;
    return thinner <= kThinnerInside * double(right - left) * double(bottom - top);
}

double median_of_clear(const SmallScan& scan, const FrameSides& sides, const std::array<double, 4>& reach,
                       const Background& background) {
    std::vector<double> clear;
    for (const Side side : kSides) {
        if (sides[side].seen != FrameSide::Seen::clear) continue;
        const SideView view(scan, side);
        const Stretch stretch = between(scan, sides, side);
        for (int along = stretch.first; along <= stretch.last; ++along)
            for (int out = 2; out <= std::max(3, int(reach[side])); ++out) {
                const int depth = int(std::lround(sides[side].line.depth(along))) - out;
                if (depth >= 0 && background.is_clear(view.at(along, depth)))
                    clear.push_back(view.at(along, depth));
            }
    }
    return clear.empty() ? background.clear : median(std::move(clear));
}

/// What can be said when background is the given one; no frame when its sides make none.
FilmSurvey survey_against(const SmallScan& scan, const Background& background) {
    FilmSurvey survey;
    const FrameSides sides = sides_of_frame(scan, background);
    const int clear = count_seen(sides, FrameSide::Seen::clear);
    if (!enclose(sides) || (background.clear > -kNoDensity && clear < 2)) return survey;
    const auto inset = insets(scan, sides);
    if (!is_plausible(scan, inset, background)) return survey;
    survey.inset = inset;
    survey.degrees_askew = std::atan(middle_slope(sides)) * 180 / std::numbers::pi;
    survey.is_partly_hidden =
        std::any_of(sides.begin(), sides.end(), [](const FrameSide& each) { return each.is_hidden; });
    if (clear >= 2) {
        survey.clear = median_of_clear(scan, sides, clear_around(scan, inset, background.clear), background);
        survey.clear_depth = clear_around(scan, inset, *survey.clear);
    }
    return survey;
}

bool holds_rim(const SmallScan& painted, const std::array<double, 4>& inset) {
    const int left = int(inset[kLeft]), right = painted.width - int(inset[kRight]);
    const int top = int(inset[kTop]), bottom = painted.height - int(inset[kBottom]);
    double held = 0;
    for (int y = top; y < bottom; ++y)
        for (int x = left; x < right; ++x) held += painted.at(x, y) >= kPainted;
    return held > kRimInside * double(right - left) * double(bottom - top);
}

/// Whether so much of the scan's middle is thinner that no frame around it can lie in film of this density.
bool is_too_dense(const SmallScan& scan, double clear) {
    double thinner = 0;
    for (int y = scan.height * 35 / 100; y < scan.height * 65 / 100; ++y)
        for (int x = scan.width * 35 / 100; x < scan.width * 65 / 100; ++x)
            thinner += scan.at(x, y) < clear - 2 * kClearTolerance;
    return thinner > kThinnerInside * scan.width * scan.height;
}

bool runs_into_rim(const SmallScan& scan, const std::array<double, 4>& inset, double clear) {
    if (is_too_dense(scan, clear)) return false;
    const auto painted = with_rim_painted(scan, clear);
    return painted && holds_rim(*painted, inset);
}

/// The frame where the holder is what clear film of this density parts from the picture.
FilmSurvey survey_in_painted(const SmallScan& scan, double clear, double holder) {
    if (is_too_dense(scan, clear)) return {};
    const auto painted = with_rim_painted(scan, clear);
    if (!painted) return {};
    FilmSurvey hidden;
    // What is as dense as a holder may be picture where all of the holder is painted.
    for (const double dense : {double(kPainted), std::min(holder, double(kPainted))}) {
        FilmSurvey survey = survey_against(*painted, {clear, dense});
        if (survey.inset && !survey.is_partly_hidden) return survey;
        if (survey.inset && !hidden.inset) hidden = survey;
    }
    return hidden;
}

/// Whether a frame that was found in a holder has clear film along two of its sides at least: then the holder
/// has an edge there and not the picture.
bool clear_lies_inside(const SmallScan& scan, const std::array<double, 4>& inset,
                       const std::vector<double>& candidates) {
    constexpr int kJustInside = 2;
    for (const double clear : candidates) {
        const Background background{clear, kNoDensity};
        if (!is_plausible(scan, inset, background)) continue;
        int sides = 0;
        for (const Side side : kSides) {
            const SideView view(scan, side);
            const auto [before, after] =
                side <= kBottom ? std::pair{kLeft, kRight} : std::pair{kTop, kBottom};
            const int first = int(inset[before]) + kJustInside,
                      last = view.length() - 1 - kJustInside - int(inset[after]);
            int clear_here = 0;
            for (int along = first; along <= last; ++along)
                clear_here += background.is_clear(view.at(along, int(inset[side]) + kJustInside));
            sides += clear_here > kClearAlong * (last - first + 1);
        }
        if (sides >= 2) return true;
    }
    return false;
}

/// Clear film all around something, though no straight edge shows where the picture ends.
std::optional<double> clear_all_around(const SmallScan& scan, const Background& background) {
    const FrameSides sides = sides_of_what_is_seen(scan, background);
    if (count_seen(sides, FrameSide::Seen::clear) < 4) return std::nullopt;
    if (!is_plausible(scan, insets(scan, sides), background)) return std::nullopt;
    return median_of_clear(scan, sides, {}, background);
}

FilmSurvey searched(const SmallScan& scan) {
    FilmSurvey survey;
    const double brightest = brightest_density(scan), holder = holder_density(scan, brightest);
    const std::vector<double> candidates = often_among_the_thin(scan, brightest - 0.02);
    for (const double clear : candidates) {
        survey = survey_against(scan, {clear, holder});
        if (survey.inset && !runs_into_rim(scan, *survey.inset, clear)) return survey;
    }
    FilmSurvey hidden;
    for (const double clear : candidates) {
        survey = survey_in_painted(scan, clear, holder);
        if (survey.inset && !survey.is_partly_hidden) return survey;
        if (survey.inset && !hidden.inset) hidden = survey;
    }
    if (hidden.inset) return hidden;
    if (holder < kNoDensity) survey = survey_against(scan, {-kNoDensity, holder});
    if (survey.inset && clear_lies_inside(scan, *survey.inset, candidates)) survey.is_partly_hidden = true;
    for (const double clear : candidates)
        if (survey.clear = clear_all_around(scan, {clear, holder}); survey.clear) {
            survey.is_partly_hidden = true;
            return survey;
        }
    return survey;
}

}  // namespace

std::array<double, 4> clear_around(const SmallScan& scan, const std::array<double, 4>& inset, double clear) {
    constexpr double kMostlyClear = 0.9;
    const Background background{clear, kNoDensity};
    std::array<double, 4> reach{};
    for (const Side side : kSides) {
        const SideView view(scan, side);
        const auto [before, after] = side <= kBottom ? std::pair{kLeft, kRight} : std::pair{kTop, kBottom};
        const int first = std::max(0, int(inset[before]) + 1);
        const int last = std::min(view.length() - 1, view.length() - 2 - int(inset[after]));
        const int deepest = int(kDeepestMargin * std::max(scan.width, scan.height));
        int not_yet = 0;
        for (int out = 1; out <= deepest && int(inset[side]) - out >= 0; ++out) {
            int clear_here = 0;
            for (int along = first; along <= last; ++along)
                clear_here += background.is_clear(view.at(along, int(inset[side]) - out));
            if (clear_here > kMostlyClear * (last - first + 1)) reach[side] = out;
            // An askew frame leaves a wedge of picture just outside its inner rectangle.
            else if (reach[side] > 0 || ++not_yet > deepest / 2)
                break;
        }
    }
    return reach;
}

std::array<double, 4> clear_all_round(const SmallScan& scan, const std::array<double, 4>& inset, double clear,
                                      std::array<double, 4> reach) {
    constexpr double kAllButDust = 0.98;
    const Background background{clear, kNoDensity};
    const auto share_of = [&](Side side) {
        const SideView view(scan, side);
        const auto [before, after] = side <= kBottom ? std::pair{kLeft, kRight} : std::pair{kTop, kBottom};
        const int first = std::max(0, int(inset[before] - reach[before]));
        const int last = std::min(view.length(), view.length() - int(inset[after] - reach[after])) - 1;
        const int depth = std::max(0, int(inset[side] - reach[side]));
        int clear_here = 0;
        for (int along = first; along <= last; ++along)
            clear_here += background.is_clear(view.at(along, depth));
        return double(clear_here) / std::max(1, last - first + 1);
    };
    while (true) {
        std::optional<Side> worst;
        double least = kAllButDust;
        for (const Side side : kSides)
            if (reach[side] >= 1)
                if (const double share = share_of(side); share < least) {
                    least = share;
                    worst = side;
                }
        if (!worst) return reach;
        reach[*worst] -= 1;
    }
}

FilmSurvey surveyed(const SmallScan& scan) {
    if (std::min(scan.width, scan.height) < 16) return {};
    FilmSurvey survey = searched(scan);
    if (survey.inset) survey.on_holder = sides_on_holder(scan, *survey.inset);
    return survey;
}

}  // namespace fogproof::scan
