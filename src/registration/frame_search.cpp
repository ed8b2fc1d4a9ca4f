// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/frame_search.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "base/quantile.hpp"
#include "registration/local_contrast.hpp"
#include "registration/piece_search.hpp"

namespace fogproof::registration {
namespace {

// Where keypoints are looked for: pixels along the longer side, and how many of the strongest.
constexpr int kNegativePixels = 900, kPrintPixels = 1500;
constexpr std::size_t kNegativePoints = 1500, kPrintPoints = 2000;
constexpr int kMostPixels = 2400;
// Contrast is evened over so many pixels of the negative and of the print as keypoints are looked for.
constexpr double kEvenedNegative = 12, kEvenedPrint = 20;
// Half diagonals by which a keypoint may lie off a place that explains it.
constexpr double kExplained = 0.02;
// Places that are tried of a piece with few keypoints; the part of the frame above which one piece of a print
// seems to show more than it can. Judgement.
constexpr std::size_t kPlacesOfAPiece = 2;
constexpr double kShownByOne = 0.7;
constexpr double kDimmestLight = 1e-7;  // that the film is taken to let through

GreyImage lightness(const ReflectionImage& print) {
    GreyImage image(print.width, print.height);
    std::ranges::transform(print.light, image.values.begin(),
                           [](float light) { return std::cbrt(std::max(0.0f, light)); });
    return image;
}

// What a print of the negative may look like before its curve is known: the middle nine tenths of the tones
// over most of the range.
GreyImage expected(const SmallNegative& negative) {
    std::vector<double> sorted;
    for (const NegativeDensity density : negative.density) sorted.push_back(density.value);
    const double thin = quantile(sorted, 0.05), dense = std::max(quantile(sorted, 0.95), thin + 0.05);
    GreyImage image(negative.width, negative.height);
    std::ranges::transform(negative.density, image.values.begin(), [&](NegativeDensity density) {
        return float(1 / (1 + std::exp(-4 * ((density.value - thin) / (dense - thin) - 0.5))));
    });
    return image;
}

// Through an enlarger that blurs its light by a unit.
SmallNegative softer_on_easel(SmallNegative negative) {
    GreyImage light(negative.width, negative.height);
    std::ranges::transform(negative.density, light.values.begin(),
                           [](NegativeDensity density) { return float(std::pow(10.0, -density.value)); });
    std::ranges::transform(blurred(light, kBlurUnit).values, negative.density.begin(), [](float passed) {
        return NegativeDensity{-std::log10(std::max(kDimmestLight, double(passed)))};
    });
    return negative;
}

double longer_side(const FrameWarp& warp, double width, double height) {
    const auto c = frame_corners(width, height);
    const ScanPlace a = warp.at(c[0]), b = warp.at(c[1]), d = warp.at(c[3]);
    return std::max(std::hypot(a.x - b.x, a.y - b.y), std::hypot(a.x - d.x, a.y - d.y));
}

SmallNegative mirrored(SmallNegative negative) {
    for (int y = 0; y < negative.height; ++y) {
        const auto row = negative.density.begin() + std::ptrdiff_t(y) * negative.width;
        std::reverse(row, row + negative.width);
    }
    return negative;
}

// The warp of the frame left to right exchanged.
FrameWarp mirrored(FrameWarp warp) {
    for (const std::size_t i : {0u, 3u, 6u}) warp.numbers[i] = -warp.numbers[i];
    return warp;
}

}  // namespace

FrameSearch::FrameSearch(const ReflectionImage& print, const NegativeView& view)
    : view_(view),
      small_(view.at(kNegativePixels)),
      scan_(lightness(print)),
      pitch_(std::max(1.0, std::max(scan_.width, scan_.height) / double(kPrintPixels))) {
    const GreyImage image = pitch_ > 1 ? area_means(scan_, int(std::lround(scan_.width / pitch_)),
                                                    int(std::lround(scan_.height / pitch_)))
                                       : scan_;
    const double across = double(scan_.width) / image.width, down = double(scan_.height) / image.height;
    points_ = keypoints(with_even_contrast(image, kEvenedPrint), kPrintPoints);
    for (Keypoint& point : points_) point.x *= across, point.y *= down, point.size *= pitch_;
}

std::vector<CoarsePlace> FrameSearch::places(bool is_mirrored, const CoarseSearch& search,
                                             const FrameWarp* besides) {
    if (!matches_.contains(is_mirrored)) {
        const GreyImage image =
            with_even_contrast(expected(is_mirrored ? mirrored(small_) : small_), kEvenedNegative);
        matches_[is_mirrored] =
            matches(keypoints(image, kNegativePoints), image.width, image.height, points_);
    }
    const std::vector<Match>& all = matches_[is_mirrored];
    if (!besides) return coarse_places(all, search);
    const double explained = kExplained * CoarseHint::of(*besides).growth;
    std::vector<Match> others;
    std::ranges::copy_if(all, std::back_inserter(others), [&](const Match& match) {
        const ScanPlace at = besides->at(match.frame);
        return std::hypot(at.x - match.scan.x, at.y - match.scan.y) > explained;
    });
    return coarse_places(others, search);
}

std::optional<HeldFrame> FrameSearch::held(const CoarsePlace& near, bool is_mirrored,
                                           const FrameGrid* grid) const {
    const double along = longer_side(near.warp, small_.width, small_.height);
    const int asked =
        grid ? std::max(grid->width, grid->height) : std::clamp(int(along), kNegativePixels / 4, kMostPixels);
    HeldFrame held{};
    held.is_mirrored = is_mirrored;
    held.negative = view_.at(asked);
    held.noise = scan_noise(held.negative, view_);
    if (is_mirrored) held.negative = mirrored(std::move(held.negative));
    held.grid = {held.negative.width, held.negative.height};
    // A negative of few pixels cannot show what the scan shows.
    const double pitch = along / std::max(held.grid.width, held.grid.height);
    held.scan = pitch > 1.2 ? blurred(scan_, 0.5 * std::sqrt(pitch * pitch - 1)) : scan_;
    const double match_doubt = near.doubt * pitch_;
    const auto all = levels(expected(held.negative), held.scan);
    auto fine = fine_place(all, near, match_doubt);
    if (!fine) return std::nullopt;
    // Even blocks hold the frame only where the print shows it.
    const FramePart part = agreement(fine->expected, seen_through(fine->warp, held.grid, held.scan)).part;
    held.fine = settled(std::move(*fine), all.front(), expected(softer_on_easel(held.negative)), part, near,
                        match_doubt);
    held.seen = seen_through(held.fine.warp, held.grid, held.scan);
    held.agreement = agreement(held.fine.expected, held.seen);
    return held;
}

void FrameSearch::hold_on_side(HeldFrame& held, const CoarsePlace& near, const FramePart& part,
                               const FramePart& side) const {
    const Level finest{expected(held.negative), held.scan, 1};
    held.fine = settled(std::move(held.fine), finest, expected(softer_on_easel(held.negative)), part, near,
                        near.doubt * pitch_, side);
    held.seen = seen_through(held.fine.warp, held.grid, held.scan);
}

std::vector<CoarsePlace> FrameSearch::places_beside(const HeldFrame& piece, PieceLies lies,
                                                    PieceShows shows) const {
    const FramePart& shown = piece.agreement.part;
    const int width = piece.grid.width, height = piece.grid.height;
    const double frame = double(width) * height;
    // What one piece shows hides where the other begins, if its ground looks the same wherever it is slid to.
    std::vector<FramePart> missing;
    if (shown.area() > kShownByOne * frame)
        missing = {{0, 0, width / 2, height},
                   {width / 2, 0, width, height},
                   {0, 0, width, height / 2},
                   {0, height / 2, width, height}};
    else if (shows == PieceShows::as_much)
        missing = {piece_beside(shown, width, height)};
    else
        missing = {std::max({FramePart{0, 0, shown.left, height}, FramePart{shown.right, 0, width, height},
                             FramePart{0, 0, width, shown.top}, FramePart{0, shown.bottom, width, height}},
                            [](const FramePart& a, const FramePart& b) { return a.area() < b.area(); })};
    const GreyImage negative = expected(piece.negative);
    // Turned about the scan's corner: only its size and its turn are asked then.
    const FrameWarp beside = lies == PieceLies::upside_down ? piece.fine.warp.on_pixels(-1) : piece.fine.warp;
    std::vector<CoarsePlace> places;
    for (const FramePart& part : missing)
        std::ranges::move(piece_places(negative, part, scan_, beside, kPlacesOfAPiece),
                          std::back_inserter(places));
    return places;
}

GrainShown HeldFrame::grain(const FramePart& part) const {
    return noise ? grain_shown(fine.expected, fine.blur, negative, *noise, seen, part) : GrainShown{};
}

PlacedFrame placed(HeldFrame held, const FramePart& shown, const FilmEdges& edges, bool is_own_grain) {
    PlacedFrame frame{held.fine.warp,   held.grid,    std::move(held.negative), held.fine.blur, edges, shown,
                      held.is_mirrored, is_own_grain, held.fine.corner_doubt};
    if (held.is_mirrored) {
        frame.warp = mirrored(frame.warp);
        frame.negative = mirrored(std::move(frame.negative));
        frame.shown.left = held.grid.width - shown.right, frame.shown.right = held.grid.width - shown.left;
    }
    return frame;
}

}  // namespace fogproof::registration
