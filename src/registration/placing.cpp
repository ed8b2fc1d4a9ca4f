// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/placing.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "registration/beyond_frame.hpp"
#include "registration/film_grain.hpp"
#include "registration/frame_search.hpp"

namespace fogproof::registration {
namespace {

// Places that are held against the negative.
constexpr std::size_t kPlacesTried = 3;
// Worst corner of what the print shows that is taken, as a part of the scan's longer side: 2 pixels of 1500.
// Judgement.
constexpr double kMostDoubt = 2.0 / 1500;
// A print that shows a small part of the frame may show no more picture elsewhere; shares of the frame, and
// of blocks against those that agree. Judgement, tried on prints of the negative and of its neighbours.
constexpr double kSmallPart = 0.3, kMostAgainst = 0.4, kContinued = 0.6;
// Blocks of another view of the scene are off together with their neighbours, by 0.7 to 1.7 pixels in most
// that were tried; those of prints of the negative by up to 0.2 there. Half way between.
constexpr double kMostDrift = 0.45;
constexpr std::size_t kFewestAlike = 25;
constexpr double kLeastShare = 0.65, kShareAndPart = 1.04;

std::string what_is_wrong(const HeldFrame& held, const GrainShown& grain, const ReflectionImage& print) {
    const Agreement& found = held.agreement;
    const FinePlace& fine = held.fine;
    const double share = found.part.area() / (double(held.grid.width) * held.grid.height);
    const double against = double(found.against) / double(std::max<std::size_t>(found.alike, 1));
    if (found.alike < kFewestAlike || found.share() < kLeastShare || found.share() + share < kShareAndPart ||
        (share < kSmallPart && against > kMostAgainst))
        return kLikeInParts;
    if (have_other_regions({found})) return kOtherRegions;
    if (found.drift > kMostDrift)
        return "the print's picture is distorted relative to this negative; another exposure of the same "
               "scene?";
    if (is_other_grain({&grain, 1}, print.is_coarsely_coded)) return kOtherGrain;
    if (continued_beyond(fine.warp, fine.expected, fine.blur, found.part, held.scan) > kContinued)
        return "the print goes on beyond the negative's frame; another exposure of the same scene, or the "
               "frame was found or told too small (--frame, --whole)";
    if (fine.shown_doubt > kMostDoubt * std::max(print.width, print.height))
        return "its corners can be located only to " + decimal(fine.shown_doubt * print.scan_pixels, 1) +
               " pixels: too little of the picture is sharp and on the scan";
    return {};
}

}  // namespace

std::array<ScanPlace, 4> PlacedFrame::shown_corners() const {
    const auto on_image = [this](int x, int y) { return warp.at(grid.place_of(x, y)); };
    return {on_image(shown.left, shown.top), on_image(shown.right, shown.top),
            on_image(shown.right, shown.bottom), on_image(shown.left, shown.bottom)};
}

std::array<ScanPlace, 4> PlacedFrame::corners() const {
    const double left = edges.left * grid.width, right = edges.right * grid.width,
                 top = edges.top * grid.height, bottom = edges.bottom * grid.height;
    const auto on_image = [this](double x, double y) { return warp.at(grid.place_of(x, y)); };
    return {on_image(left, top), on_image(right, top), on_image(right, bottom), on_image(left, bottom)};
}

PlacedFrame placed_frame(const ReflectionImage& print, const NegativeView& view, const std::string& place,
                         std::span<const TiePoint> ties) {
    FrameSearch search(print, view);
    // Of the first place that was held against the negative: on it most keypoints agree.
    std::optional<std::string> reason;
    const auto at = [&](const CoarsePlace& near, bool is_mirrored) -> std::optional<PlacedFrame> {
        auto held = search.held(near, is_mirrored);
        if (!held) return std::nullopt;
        const FramePart shown = held->agreement.part;
        const GrainShown grain = held->grain(shown);
        std::string wrong = what_is_wrong(*held, grain, print);
        if (wrong.empty())
            return placed(std::move(*held), shown, view.edges,
                          is_own_grain({&grain, 1}, print.is_coarsely_coded));
        if (!reason) reason = std::move(wrong);
        return std::nullopt;
    };
    if (!ties.empty()) {
        const TiedPlace tied = tied_places(ties, false).front();
        if (auto found = at(tied.place, tied.is_mirrored)) return std::move(*found);
        throw Error(Fault::data, place, reason.value_or(kNotAtTies), kPrintAsked);
    }
    // A picture that is nearly its own mirror image has places the wrong way round, too, that hold in parts.
    for (const auto& [agreeing, is_mirrored] : kSearchAttempts) {
        if (reason && *reason != kLikeInParts) break;
        CoarseSearch asked{kPlacesTried};
        asked.fewest = agreeing;
        for (const CoarsePlace& near : search.places(is_mirrored, asked))
            if (auto found = at(near, is_mirrored)) return std::move(*found);
    }
    throw Error(Fault::data, place, reason.value_or(kNotFound), kPrintAsked);
}

}  // namespace fogproof::registration
