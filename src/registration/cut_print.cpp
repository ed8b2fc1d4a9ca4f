// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/cut_print.hpp"

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

namespace fogproof::registration {
namespace {

constexpr std::size_t kPlacesTriedOfHalf = 3, kPlacesTriedBeside = 2;
// A half is held by fewer blocks than a whole print: so many that are alike, so many of those that are asked,
// and so much of the frame. Judgement.
constexpr std::size_t kFewestOfHalf = 12;
constexpr double kLeastOfHalf = 0.6, kSmallestHalf = 0.05;
// Of one half's blocks, as many as the other half's place shows of a print that was not cut. Judgement.
constexpr double kSameBlocks = 0.7;
// A piece that shows so much of the frame is no half. Judgement.
constexpr double kMostOfHalf = 0.75;

// A place with what it shows on its side of the cut, or of the whole frame while no cut is known.
struct Half {
    const HeldFrame& held;
    Agreement found;

    [[nodiscard]] double of_frame() const {
        return found.part.area() / (double(held.grid.width) * held.grid.height);
    }
    /// The rest of the frame is on the other half.
    [[nodiscard]] bool is_held() const {
        return found.alike >= kFewestOfHalf && found.share() >= kLeastOfHalf && of_frame() > kSmallestHalf;
    }
    [[nodiscard]] GrainShown grain() const { return held.grain(found.part); }
};

Half half_of(const HeldFrame& held, const FramePart& side) {
    return {held, agreement(held.fine.expected, held.seen, side)};
}

// Both sides of the cut, where either holds its place.
std::optional<std::pair<Half, Half>> halves_held(const HeldFrame& first, const HeldFrame& second) {
    const auto on_both_sides = [&](const CutParts& cut) -> std::optional<std::pair<Half, Half>> {
        const Half one = half_of(first, cut.first), other = half_of(second, cut.second);
        return one.is_held() && other.is_held() ? std::optional(std::pair(one, other)) : std::nullopt;
    };
    const auto by_detail = on_both_sides(
        cut_by_detail(first.agreement.votes, second.agreement.votes, first.grid.width, first.grid.height));
    return by_detail ? by_detail
                     : on_both_sides(cut_by_tones(blurred(densities(first.negative), first.fine.blur),
                                                  first.seen, second.seen));
}

Error refused(const std::string& place, const char* reason) {
    return {Fault::data, place, reason,
            "both halves of a print of this negative, most of its frame in sight"};
}

// Of one half that is held: with the other one, unless both are of another negative or one piece shows both.
struct Beside {
    std::optional<std::array<PlacedFrame, 2>> halves;
    bool are_other = false, is_one = false;
};

// Whether the place of one half shows what the other half has, as well: then nothing was cut.
bool shows_also(const Half& one, const Half& other) {
    const Half also = half_of(one.held, other.found.part);
    return also.is_held() && double(also.found.alike) > kSameBlocks * double(other.found.alike);
}

Beside with_other_half(FrameSearch& search, HeldFrame first, const FilmEdges& edges, bool is_coarsely_coded,
                       const std::string& place) {
    const auto are_other = [is_coarsely_coded](std::initializer_list<GrainShown> pieces) {
        return is_other_grain(pieces, is_coarsely_coded);
    };
    Beside found;
    const auto try_places = [&](const std::vector<CoarsePlace>& places) {
        for (const CoarsePlace& near : places) {
            auto second = search.held(near, first.is_mirrored, &first.grid);
            if (!second) continue;
            const auto halves = halves_held(first, *second);
            if (!halves) continue;
            const auto& [one, other] = *halves;
            if (shows_also(one, other) || shows_also(other, one)) {
                found.is_one = true;
                continue;
            }
            if (have_other_regions({one.found, other.found})) {
                // What was found by its picture alone may be no place at all. Where keypoints agree nothing
                // else is tried: another place might be held by what has moved.
                if (near.agreeing.empty()) continue;
                throw refused(place, kOtherRegions);
            }
            const GrainShown of_one = one.grain();
            if (are_other({of_one, other.grain()})) {
                // The second place may be none, and the first one right.
                found.are_other = found.are_other || are_other({of_one});
                continue;
            }
            found.halves = {placed(std::move(first), one.found.part, edges),
                            placed(std::move(*second), other.found.part, edges)};
            return;
        }
    };
    // Both are of one size and lie nearly the same way.
    CoarseSearch beside{kPlacesTriedBeside};
    beside.hint = CoarseHint::of(first.fine.warp);
    try_places(search.places(first.is_mirrored, beside, &first.fine.warp));
    if (!found.halves && !found.are_other) try_places(search.places_beside(first));
    // Or upside down.
    beside.hint->turn += std::numbers::pi;
    if (!found.halves && !found.are_other)
        try_places(search.places(first.is_mirrored, beside, &first.fine.warp));
    return found;
}

}  // namespace

std::array<PlacedFrame, 2> placed_halves(const ReflectionImage& print, const NegativeView& view,
                                         const std::string& place) {
    FrameSearch search(print, view);
    const char* reason = kNotFound;
    bool one_is_found = false, are_other = false, is_one = false;
    for (const auto& [agreeing, is_mirrored] : kSearchAttempts) {
        if (one_is_found) break;
        CoarseSearch asked{kPlacesTriedOfHalf, kNearOnHalves, kBendOnHalves};
        asked.fewest = agreeing;
        for (const CoarsePlace& near : search.places(is_mirrored, asked)) {
            auto first = search.held(near, is_mirrored);
            if (!first) continue;
            const Half half{*first, first->agreement};
            if (!half.is_held()) {
                reason = kLikeInParts;
                continue;
            }
            one_is_found = true, is_one = is_one || half.of_frame() > kMostOfHalf;
            Beside found =
                with_other_half(search, std::move(*first), view.edges, print.is_coarsely_coded, place);
            if (found.halves) return std::move(*found.halves);
            are_other = are_other || found.are_other, is_one = is_one || found.is_one;
        }
    }
    if (!one_is_found) throw refused(place, reason);
    if (is_one && !are_other) throw refused(place, kNotCut);
    throw are_other ? refused(place, kOtherGrain) : refused(place + ", the other half", kNotFound);
}

}  // namespace fogproof::registration
