// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/cut_print.hpp"

#include <algorithm>
#include <array>
#include <initializer_list>
#include <numbers>
#include <optional>
#include <utility>
#include <vector>

#include "fogproof/base/error.hpp"
#include "registration/film_grain.hpp"
#include "registration/frame_cut.hpp"
#include "registration/frame_search.hpp"
#include "registration/negative_image.hpp"
#include "registration/shown_part.hpp"

namespace fogproof::registration {
namespace {

constexpr std::size_t kPlacesTriedOfHalf = 3, kPlacesTriedBeside = 2;
// A half is held by fewer blocks than a whole print: so many that are alike, so many of those that are asked,
// and so much of the frame. Judgement.
constexpr std::size_t kFewestOfHalf = 12;
constexpr double kLeastOfHalf = 0.6, kSmallestHalf = 0.05;
constexpr std::size_t kFewestOfTied = 4;
constexpr double kLeastOfTied = 0.5;
// Pixels by which neighbouring blocks of a half are off together; up to 0.75 on prints of the negative that
// were tried, and 1.8 where the camera stood elsewhere.
constexpr double kMostDriftOfHalf = 1;
// Share of the asked blocks that are alike on both sides of a cut where nobody has to doubt it. Judgement.
constexpr double kSurely = 0.85;
// Of one half's blocks, as many as the other half's place shows of a print that was not cut. Judgement.
constexpr double kSameBlocks = 0.7;
// The same region is shown as well at another place where a tone curve leaves so little more of it there;
// natural logarithm. Judgement.
constexpr double kAsWellShown = 0.3;
// Of one half's keypoints, so many on the other's side of a print that was not cut. Judgement.
constexpr double kKeypointsBeyond = 0.2;
// A piece that shows so much of the frame is no half. Judgement.
constexpr double kMostOfHalf = 0.75;

// A place with what it shows on its side of the cut, or of the whole frame while no cut is known.
struct Half {
    const HeldFrame& held;
    FramePart side;
    Agreement found;

    [[nodiscard]] double of_frame() const {
        return found.part.area() / (double(held.grid.width) * held.grid.height);
    }
    /// The rest of the frame is on the other half. Where somebody saw both, less of it has to be alike.
    [[nodiscard]] bool is_held(bool is_tied = false) const {
        if (is_tied) return found.alike >= kFewestOfTied && found.share() >= kLeastOfTied;
        return found.alike >= kFewestOfHalf && found.share() >= kLeastOfHalf && of_frame() > kSmallestHalf;
    }
    [[nodiscard]] GrainShown grain() const { return held.grain(found.part); }
};

Half half_of(const HeldFrame& held, const FramePart& side) {
    return {held, side, agreement(held.fine.expected, held.seen, side)};
}

// Both sides of the cut, where either holds its place; `told` is where somebody saw either side.
std::optional<std::pair<Half, Half>> halves_held(const HeldFrame& first, const HeldFrame& second,
                                                 const std::optional<CutParts>& told) {
    const auto on_both_sides = [&](const CutParts& cut) -> std::optional<std::pair<Half, Half>> {
        const Half one = half_of(first, cut.first), other = half_of(second, cut.second);
        return one.is_held(told.has_value()) && other.is_held(told.has_value())
                   ? std::optional(std::pair(one, other))
                   : std::nullopt;
    };
    if (told) return on_both_sides(*told);
    const auto by_detail = on_both_sides(
        cut_by_detail(first.agreement.votes, second.agreement.votes, first.grid.width, first.grid.height));
    return by_detail ? by_detail
                     : on_both_sides(cut_by_tones(blurred(densities(first.negative), first.fine.blur),
                                                  first.seen, second.seen));
}

Error refused(const std::string& place, const char* reason) {
    return {
        Fault::data, place, reason,
        "both halves of a print of this negative that was cut in two before one was bleached, most of its "
        "frame in sight"};
}

// Two places that show the two sides of a cut.
struct Pair {
    HeldFrame second;
    CoarsePlace near;  ///< of the second
    CutParts shown;    ///< what the print shows
    CutParts sides;    ///< of the cut
    double explained;  ///< votes of both
    bool is_sure;
    bool is_own_grain;
};

// Of one half that is held: with the other one, unless both are of another negative or one piece shows both.
struct Beside {
    std::optional<Pair> best;
    bool are_other = false, is_one = false;
    /// Votes of the best place on which keypoints agree, but which shows other regions.
    std::optional<double> with_other_regions;
    [[nodiscard]] bool is_sure() const { return best && best->is_sure; }
};

// Whether the place of one half shows what the other half has, as well: then nothing was cut. Slow tones and
// long outlines are alike wherever they are slid to, but there their tones are not the negative's.
bool shows_also(const Half& one, const Half& other) {
    const Half also = half_of(one.held, other.found.part);
    if (!also.is_held() || double(also.found.alike) <= kSameBlocks * double(other.found.alike)) return false;
    const GreyImage negative = blurred(densities(one.held.negative), one.held.fine.blur);
    return left_by_tones(negative, one.held.seen, other.found.part) <
           left_by_tones(negative, other.held.seen, other.found.part) + kAsWellShown;
}

FramePart grown(const HeldFrame& held, const FramePart& part, const FramePart& most) {
    return with_even_ground(blurred(densities(held.negative), held.fine.blur), held.seen, part, most);
}

// The same by the keypoints that agreed on its place. A pattern that comes back looks the same at many
// places.
bool has_keypoints_on(const CoarsePlace& place, const FramePart& part, const FrameGrid& grid) {
    const double half = half_diagonal(grid.width, grid.height);
    const auto on_part = std::ranges::count_if(place.agreeing, [&](const Match& match) {
        const double x = match.frame.u * half + grid.width / 2.0,
                     y = match.frame.v * half + grid.height / 2.0;
        return x >= part.left && x < part.right && y >= part.top && y < part.bottom;
    });
    return double(on_part) > kKeypointsBeyond * double(place.agreeing.size());
}

// Where a half may lie: over the cut as far as the other one is not known to begin, since detail tells a cut
// in even ground only roughly.
FramePart up_to(const FramePart& other, const FramePart& side, const FrameGrid& grid) {
    FramePart most{0, 0, grid.width, grid.height};
    if (side.left > 0) most.left = other.right;
    if (side.top > 0) most.top = other.bottom;
    if (side.right < grid.width) most.right = other.left;
    if (side.bottom < grid.height) most.bottom = other.top;
    return most;
}

void take_even_ground(const HeldFrame& first, Pair& pair) {
    auto& [of_first, of_second] = pair.shown;
    of_first = grown(first, of_first, up_to(of_second, pair.sides.first, first.grid));
    of_second = grown(pair.second, of_second, up_to(of_first, pair.sides.second, first.grid));
}

// Where keypoints agree on a second place and nearly all of both sides is alike, nothing else is tried. Long
// lines look much the same wherever they are slid to, and a place that was found by its picture may be one of
// many: there the places are held against each other.
Beside with_other_half(FrameSearch& search, const HeldFrame& first, const CoarsePlace& of_first,
                       const std::optional<CoarsePlace>& tied, bool is_coarsely_coded,
                       const std::string& place) {
    const auto are_other = [is_coarsely_coded](std::initializer_list<GrainShown> pieces) {
        return is_other_grain(pieces, is_coarsely_coded);
    };
    Beside found;
    const auto try_places = [&](const std::vector<CoarsePlace>& places) {
        for (const CoarsePlace& near : places) {
            auto second = search.held(near, first.is_mirrored, &first.grid);
            if (!second) continue;
            const auto told = tied ? std::optional(cut_between(of_first, near, first.grid)) : std::nullopt;
            const auto halves = halves_held(first, *second, told);
            if (!halves) continue;
            const auto& [one, other] = *halves;
            const bool is_by_picture = near.agreeing.empty();
            if (!tied && (shows_also(one, other) || shows_also(other, one) ||
                          (is_by_picture && has_keypoints_on(of_first, other.found.part, first.grid)))) {
                found.is_one = true;
                continue;
            }
            const double explained = one.found.votes_of_part + other.found.votes_of_part;
            if (have_other_regions({one.found, other.found}) ||
                std::max(one.found.drift, other.found.drift) > kMostDriftOfHalf) {
                // What was found by its picture alone may be no place at all. Where keypoints agree nothing
                // else is tried the same way up: another place might be held by what has moved.
                if (is_by_picture || found.best) continue;
                found.with_other_regions = std::max(explained, found.with_other_regions.value_or(explained));
                return;
            }
            const bool is_sure = one.found.share() > kSurely && other.found.share() > kSurely;
            if (found.with_other_regions && (!is_sure || explained <= *found.with_other_regions)) continue;
            const GrainShown of_one = one.grain(), of_other = other.grain();
            if (are_other({of_one, of_other})) {
                // The second place may be none, and the first one right.
                found.are_other = found.are_other || are_other({of_one});
                continue;
            }
            if (found.best && explained <= found.best->explained) continue;
            const CutParts shown{one.found.part, other.found.part}, sides{one.side, other.side};
            const std::array both{of_one, of_other};
            found.best = Pair{std::move(*second),
                              near,
                              shown,
                              sides,
                              explained,
                              is_sure,
                              is_own_grain(both, is_coarsely_coded)};
            if (is_sure && !is_by_picture) return;
        }
    };
    if (tied) {
        try_places({*tied});
        if (!found.best && found.with_other_regions) throw refused(place, kOtherRegions);
        return found;
    }
    const auto is_open = [&found] { return !found.is_sure() && !found.are_other; };
    // Both are of one size and lie nearly the same way.
    CoarseSearch beside{kPlacesTriedBeside};
    beside.hint = CoarseHint::of(first.fine.warp);
    try_places(search.places(first.is_mirrored, beside, &first.fine.warp));
    if (is_open() && !found.with_other_regions) try_places(search.places_beside(first, PieceLies::alike));
    // Or upside down. Fences and checks look much the same either way up: of a half that lies upside down
    // keypoints may agree on a place the wrong way up, which the right one outdoes.
    beside.hint->turn += std::numbers::pi;
    try_places(search.places(first.is_mirrored, beside, &first.fine.warp));
    if (is_open() && !found.is_one && !found.with_other_regions)
        try_places(search.places_beside(first, PieceLies::upside_down));
    if (!found.best && !found.are_other && !found.is_one && !found.with_other_regions)
        try_places(search.places_beside(first, PieceLies::alike, PieceShows::as_much));
    if (!found.best && found.with_other_regions) throw refused(place, kOtherRegions);
    return found;
}

}  // namespace

std::array<PlacedFrame, 2> placed_halves(const ReflectionImage& print, const NegativeView& view,
                                         const std::string& place, std::span<const TiePoint> ties) {
    FrameSearch search(print, view);
    const char* reason = ties.empty() ? kNotFound : kNotAtTies;
    bool one_is_found = false, are_other = false, is_one = false;
    using Halves = std::array<PlacedFrame, 2>;
    const auto at = [&](const CoarsePlace& near, bool is_mirrored,
                        const std::optional<CoarsePlace>& tied) -> std::optional<Halves> {
        auto first = search.held(near, is_mirrored);
        if (!first) return std::nullopt;
        const Half half{*first, {}, first->agreement};
        if (!tied && !half.is_held()) {
            reason = kLikeInParts;
            return std::nullopt;
        }
        one_is_found = true, is_one = is_one || (!tied && half.of_frame() > kMostOfHalf);
        Beside found = with_other_half(search, *first, near, tied, print.is_coarsely_coded, place);
        if (found.best) {
            Pair& best = *found.best;
            search.hold_on_side(*first, near, best.shown.first, best.sides.first);
            search.hold_on_side(best.second, best.near, best.shown.second, best.sides.second);
            take_even_ground(*first, best);
            return Halves{placed(std::move(*first), best.shown.first, view.edges, best.is_own_grain),
                          placed(std::move(best.second), best.shown.second, view.edges, best.is_own_grain)};
        }
        are_other = are_other || found.are_other, is_one = is_one || found.is_one;
        return std::nullopt;
    };
    if (!ties.empty()) {
        const auto tied = tied_places(ties, true);
        const auto other = tied.size() > 1 ? std::optional(tied.back().place) : std::nullopt;
        if (auto found = at(tied.front().place, tied.front().is_mirrored, other)) return std::move(*found);
    } else {
        for (const auto& [agreeing, is_mirrored] : kSearchAttempts) {
            if (one_is_found) break;
            CoarseSearch asked{kPlacesTriedOfHalf, kNearOnHalves, kBendOnHalves};
            asked.fewest = agreeing;
            for (const CoarsePlace& near : search.places(is_mirrored, asked))
                if (auto found = at(near, is_mirrored, std::nullopt)) return std::move(*found);
        }
    }
    if (!one_is_found) throw refused(place, reason);
    if (is_one && !are_other) throw refused(place, kNotCut);
    throw are_other ? refused(place, kOtherGrain)
                    : refused(place + ", the other half", ties.empty() ? kNotFound : kNotAtTies);
}

}  // namespace fogproof::registration
