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
#include "registration/coarse_place.hpp"
#include "registration/film_grain.hpp"
#include "registration/fine_place.hpp"
#include "registration/local_contrast.hpp"

namespace fogproof::registration {
namespace {

// Where keypoints are looked for: pixels along the longer side, and how many of the strongest.
constexpr int kNegativePixels = 900, kPrintPixels = 1500;
constexpr std::size_t kNegativePoints = 1500, kPrintPoints = 2000, kPlacesTried = 3;
constexpr int kMostPixels = 2400;
// Contrast is evened over so many pixels of the negative and of the print as keypoints are looked for.
constexpr double kEvenedNegative = 12, kEvenedPrint = 20;
// A keypoint of the print is good to this many of the pixels it was found on.
constexpr double kMatchDoubt = 1.5;
// Worst corner that is taken, as a part of the scan's longer side: 2 pixels of 1500. Judgement.
constexpr double kMostDoubt = 2.0 / 1500;
// A print that shows a small part of the frame may show no more picture elsewhere; shares of the frame, and
// of blocks against those that agree. Judgement, tried on prints of the negative and of its neighbours.
constexpr double kSmallPart = 0.3, kMostAgainst = 0.4, kMostOther = 0.05, kContinued = 0.6;
// Blocks of another view of the scene are off together with their neighbours, by 0.7 to 1.7 pixels in most
// that were tried; those of prints of the negative by up to 0.2 there. Half way between.
constexpr double kMostDrift = 0.45;
// Prints of the negative show most of its grain. How much scatters by a blur that is not quite known, and
// more on scans of 8 bit, whose JPEG wipes out what is faint: by this size (a part of a code) over the
// grain's. So many deviations less is another exposure's. Tried on prints of the negative and of its
// neighbours.
constexpr double kGrainShown = 0.95, kGrainScatter = 0.13, kCoarseScatter = 0.15, kFaint = 0.005 / 255,
                 kGrainDeviations = 2.2;
constexpr double kDimmestLight = 1e-7;  // that the film is taken to let through
constexpr double kSmallestPiece = 0.1;
constexpr std::size_t kFewestAlike = 25;
constexpr double kLeastShare = 0.65, kLeastOfPiece = 0.5, kShareAndPart = 1.04;

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
    const auto at = [&sorted](double share) {
        const auto place = sorted.begin() + std::ptrdiff_t(share * double(sorted.size() - 1));
        std::ranges::nth_element(sorted, place);
        return *place;
    };
    const double thin = at(0.05), dense = std::max(at(0.95), thin + 0.05);
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

bool is_within(const std::array<ScanPlace, 4>& part, double x, double y) {
    int sign = 0;
    for (std::size_t i = 0; i < part.size(); ++i) {
        const ScanPlace &a = part[i], &b = part[(i + 1) % part.size()];
        const double side = (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
        const int here = side > 0 ? 1 : -1;
        if (sign != 0 && here != sign) return false;
        sign = here;
    }
    return true;
}

// Keypoints of the print, in pixels of its image, and how large a pixel was when they were looked for.
struct PrintPoints {
    std::vector<Keypoint> points;
    double pitch;
};
PrintPoints print_points(const GreyImage& print, const std::optional<PrintCut>& cut) {
    const double pitch = std::max(1.0, std::max(print.width, print.height) / double(kPrintPixels));
    const GreyImage image = pitch > 1 ? area_means(print, int(std::lround(print.width / pitch)),
                                                   int(std::lround(print.height / pitch)))
                                      : print;
    const double across = double(print.width) / image.width, down = double(print.height) / image.height;
    PrintPoints found{keypoints(with_even_contrast(image, kEvenedPrint), kPrintPoints), pitch};
    for (Keypoint& point : found.points) point.x *= across, point.y *= down, point.size *= pitch;
    if (cut && cut->found)
        std::erase_if(found.points, [part = cut->found->shown_corners()](const Keypoint& point) {
            return is_within(part, point.x, point.y);
        });
    return found;
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

struct Sought {
    std::vector<CoarsePlace> places;
    int width, height;  ///< of the negative as it was looked at
    bool is_mirrored = false;
};
Sought coarsely(const NegativeView& view, const PrintPoints& print, const std::optional<PrintCut>& cut) {
    const GreyImage negative = with_even_contrast(expected(view.at(kNegativePixels)), kEvenedNegative);
    const auto sought = [&](const GreyImage& image) {
        const auto pairs =
            matches(keypoints(image, kNegativePoints), image.width, image.height, print.points);
        CoarseSearch search{kPlacesTried};
        if (cut && !cut->found) search.near = kNearOnHalves;
        if (cut && cut->found) {
            // Mirrored, the whole warp was turned round after it was found.
            search.hint =
                CoarseHint::of(cut->found->is_mirrored ? mirrored(cut->found->warp) : cut->found->warp);
        }
        return coarse_places(pairs, search);
    };
    if (cut && cut->found && cut->found->is_mirrored)
        return {sought(mirrored(negative)), negative.width, negative.height, true};
    Sought found{sought(negative), negative.width, negative.height};
    if (cut && cut->found) return found;
    if (found.places.empty()) found.places = sought(mirrored(negative)), found.is_mirrored = true;
    return found;
}

// Of the grain of a print that is this negative's.
bool is_other_grain(const GrainShown& grain, bool is_coarsely_coded) {
    const double scatter =
        is_coarsely_coded ? std::hypot(kCoarseScatter, kFaint / grain.size) : kGrainScatter;
    const double doubt = std::hypot(grain.error, scatter);
    return grain.share < kGrainShown * grain.expected - kGrainDeviations * doubt;
}

struct Evidence {
    Agreement agreement;
    GrainShown grain;
    double continued;        ///< beyond the frame
    bool is_coarsely_coded;  ///< the print's scan
};

std::string what_is_wrong(const Evidence& evidence, const FrameGrid& grid, bool is_cut) {
    const Agreement& found = evidence.agreement;
    const double share = found.part.area() / (double(grid.width) * grid.height);
    const double against = double(found.against) / double(std::max<std::size_t>(found.alike, 1));
    // Elsewhere on the frame the scan shows the other piece.
    if (is_cut && found.alike >= kFewestAlike && found.share() >= kLeastOfPiece && share > kSmallestPiece)
        return {};
    if (is_cut || found.alike < kFewestAlike || found.share() < kLeastShare ||
        found.share() + share < kShareAndPart || (share < kSmallPart && against > kMostAgainst))
        return "the print is like this negative in parts only; another exposure of the same scene?";
    if (double(found.other) > kMostOther * double(found.around))
        return "whole regions of the print show something else than this negative; another exposure of the "
               "same scene, or something that lies on the print?";
    if (found.drift > kMostDrift)
        return "the print's picture is bent against this negative's; another exposure of the same scene?";
    if (is_other_grain(evidence.grain, evidence.is_coarsely_coded)) return kOtherGrain;
    if (evidence.continued > kContinued)
        return "the print goes on beyond the negative's frame; another exposure of the same scene, or the "
               "frame "
               "was found or told too small (--frame, --whole)";
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
                         const std::optional<PrintCut>& cut) {
    const GreyImage scan = lightness(print);
    const PrintPoints points = print_points(scan, cut);
    const Sought sought = coarsely(view, points, cut);
    // Of the first place that was held against the negative: on it most keypoints agree.
    std::optional<std::string> reason;
    for (const CoarsePlace& near : sought.places) {
        const double along = longer_side(near.warp, sought.width, sought.height);
        SmallNegative negative = view.at(std::clamp(int(along), kNegativePixels / 4, kMostPixels));
        const auto film_noise = clear_film_noise(negative, view.edges);
        if (sought.is_mirrored) negative = mirrored(std::move(negative));
        const FrameGrid grid{negative.width, negative.height};
        // A negative of few pixels cannot show what the scan shows.
        const double pitch = along / std::max(grid.width, grid.height);
        const GreyImage fit = pitch > 1.2 ? blurred(scan, 0.5 * std::sqrt(pitch * pitch - 1)) : scan;
        const double match_doubt = kMatchDoubt * points.pitch;
        const auto all = levels(expected(negative), fit);
        auto fine = fine_place(all, near, match_doubt);
        if (!fine) continue;
        // Even blocks hold the frame only where the print shows it.
        const FramePart part = agreement(fine->expected, seen_through(fine->warp, grid, fit)).part;
        fine = settled(std::move(*fine), all.front(), expected(softer_on_easel(negative)), part, near,
                       match_doubt);
        const SeenFrame seen = seen_through(fine->warp, grid, fit);
        const Agreement found = agreement(fine->expected, seen);
        // Where nobody can tell grain from the negative's scan it is not asked for.
        const GrainShown grain =
            film_noise ? grain_shown(fine->expected, fine->blur, negative, *film_noise, seen, found.part)
                       : GrainShown{};
        std::string wrong = what_is_wrong(
            {found, grain, continued_beyond(fine->warp, fine->expected, fine->blur, found.part, fit),
             print.is_coarsely_coded},
            grid, cut.has_value());
        const double most = kMostDoubt * std::max(print.width, print.height);
        // Corners of a half lie off it, and nothing of them is read.
        if (wrong.empty() && !cut && fine->corner_doubt > most)
            wrong = "the frame's corners are held to " + decimal(fine->corner_doubt * print.scan_pixels, 1) +
                    " pixels only: too little of the picture is sharp and on the scan";
        if (!wrong.empty()) {
            if (!reason) reason = std::move(wrong);
            continue;
        }
        PlacedFrame placed{fine->warp,
                           grid,
                           std::move(negative),
                           fine->blur,
                           view.edges,
                           found.part,
                           sought.is_mirrored,
                           fine->corner_doubt,
                           is_other_grain(grain, print.is_coarsely_coded)};
        if (sought.is_mirrored) {
            placed.warp = mirrored(placed.warp);
            placed.negative = mirrored(std::move(placed.negative));
            placed.shown.left = grid.width - found.part.right,
            placed.shown.right = grid.width - found.part.left;
        }
        return placed;
    }
    throw Error(Fault::data, place, reason.value_or("the negative's picture is not found on the print"),
                "a scan of a print of this negative, most of its frame in sight");
}

}  // namespace fogproof::registration
