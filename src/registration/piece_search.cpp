// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/piece_search.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "registration/local_contrast.hpp"
#include "system/threads.hpp"

namespace fogproof::registration {
namespace {

// Pixels along the longer side of the frame: where the whole scan is looked over, and where the places found
// are looked at more nearly.
constexpr int kSmallFrame = 80, kNearerFrame = 160;
constexpr int kTimesNearer = kNearerFrame / kSmallFrame;
// Contrast is evened over so much of the frame's longer side.
constexpr double kEvened = 0.075;
// A piece is laid beside another by hand: turned by so much at most, and from one try to the next. Degrees.
constexpr int kMostTurned = 9, kTurnedApart = 3;
// Long lines look nearly the same wherever they are slid to along themselves, and a turn that is a degree off
// moves the best place far along them. So each place is sought again within so many pixels of the nearer
// look, and within so many degrees.
constexpr int kSlid = 12, kTurnedNearer = 2;
// Places that are looked at more nearly, for each that is asked for.
constexpr std::size_t kLookedAtForOne = 3;
// The part of a piece that has to lie on the scan.
constexpr double kOnScan = 0.85;
// Places nearer to each other than this are one; where the other piece's frame has the same, it is no place
// of this one. Small pixels.
constexpr int kOnePlace = 6, kOfTheOther = 2;

// A pixel of the piece, and where it lies from the piece's middle on the small scan.
struct Sample {
    int right, down;
    float value;
};

struct Candidate {
    double likeness = 0;
    int x = 0, y = 0, degrees = 0;
};

// Correlation at a place of the middle.
double likeness_at(const std::vector<Sample>& piece, const GreyImage& scan, int x, int y) {
    float n = 0, a = 0, b = 0, aa = 0, bb = 0, ab = 0;
    for (const Sample& sample : piece) {
        const int u = x + sample.right, v = y + sample.down;
        if (!scan.holds(u, v)) continue;
        const float here = sample.value, there = scan.at(u, v);
        n += 1, a += here, b += there, aa += here * here, bb += there * there, ab += here * there;
    }
    if (double(n) < kOnScan * double(piece.size())) return -1;
    const double across = double(aa) - double(a) * double(a) / double(n),
                 down = double(bb) - double(b) * double(b) / double(n);
    return across > 0 && down > 0
               ? (double(ab) - double(a) * double(b) / double(n)) / std::sqrt(across * down)
               : -1;
}

// An affine map, turned about the place of `middle`, which comes to lie at `to`.
FrameWarp moved(const FrameWarp& warp, FramePlace middle, double angle, ScanPlace to) {
    const auto& n = warp.numbers;
    const double c = std::cos(angle), s = std::sin(angle);
    const std::array across{c * n[0] - s * n[3], c * n[1] - s * n[4]},
        down{s * n[0] + c * n[3], s * n[1] + c * n[4]};
    return {{across[0], across[1], to.x - across[0] * middle.u - across[1] * middle.v, down[0], down[1],
             to.y - down[0] * middle.u - down[1] * middle.v, 0, 0, 0}};
}

struct Pictures {
    GreyImage frame, scan;
};

// Frame and scan at one size of pixels.
struct SmallView {
    Pictures plain, even;  ///< as light as they are; of even contrast
    FramePart part;        ///< of the frame: the piece
    FramePlace middle;     ///< of the piece
    double pitch;          ///< of its pixels, in pixels of the scan
};

SmallView small_view(const GreyImage& negative, const FramePart& piece, const GreyImage& scan,
                     const FrameWarp& beside, int along) {
    const double smaller = double(along) / std::max(negative.width, negative.height);
    const auto shrunk = [smaller](int pixels) { return std::max(1, int(std::lround(pixels * smaller))); };
    SmallView view;
    view.plain.frame = area_means(negative, shrunk(negative.width), shrunk(negative.height));
    const FrameGrid grid{view.plain.frame.width, view.plain.frame.height};
    view.pitch = CoarseHint::of(beside).growth / half_diagonal(grid.width, grid.height);
    if (!(view.pitch > 0)) return view;
    view.plain.scan = area_means(scan, std::max(1, int(std::lround(scan.width / view.pitch))),
                                 std::max(1, int(std::lround(scan.height / view.pitch))));
    view.even = {with_even_contrast(view.plain.frame, kEvened * along),
                 with_even_contrast(view.plain.scan, kEvened * along)};
    const FramePart part{shrunk(piece.left + 1) - 1, shrunk(piece.top + 1) - 1,
                         std::min(shrunk(piece.right), grid.width),
                         std::min(shrunk(piece.bottom), grid.height)};
    view.part = part;
    view.middle = grid.place_of((part.left + part.right) / 2.0, (part.top + part.bottom) / 2.0);
    return view;
}

double radians(int degrees) {
    return degrees * std::numbers::pi / 180;
}

std::vector<Sample> samples_of(const SmallView& view, const GreyImage& frame, const FrameWarp& beside,
                               int degrees) {
    const FrameWarp turned = moved(beside, view.middle, radians(degrees), {0, 0}).on_pixels(view.pitch);
    const FrameGrid grid{frame.width, frame.height};
    std::vector<Sample> samples;
    for (int y = view.part.top; y < view.part.bottom; ++y)
        for (int x = view.part.left + y % 2; x < view.part.right; x += 2) {  // every other one tells as much
            const ScanPlace at = turned.at(grid.place(x, y));
            samples.push_back({int(std::lround(at.x)), int(std::lround(at.y)), frame.at(x, y)});
        }
    return samples;
}

ScanPlace place_of(const Candidate& candidate, double pitch) {
    return {(candidate.x + 0.5) * pitch, (candidate.y + 0.5) * pitch};
}

// Whether a place is the other piece's, to so many pixels of the view.
bool is_of_other(const Candidate& candidate, const SmallView& view, const FrameWarp& beside, int pixels) {
    const ScanPlace at = place_of(candidate, view.pitch), other = beside.at(view.middle);
    return std::hypot(at.x - other.x, at.y - other.y) <= pixels * view.pitch;
}

// All places of the small scan, most alike first.
std::vector<Candidate> looked_over(const SmallView& view, const FrameWarp& beside) {
    std::vector<std::vector<Candidate>> found(2 * kMostTurned / kTurnedApart + 1);
    in_parallel(found.size(), [&](std::size_t turn) {
        const int degrees = int(turn) * kTurnedApart - kMostTurned;
        const std::vector<Sample> samples = samples_of(view, view.even.frame, beside, degrees);
        for (int y = 0; y < view.even.scan.height; ++y)
            for (int x = 0; x < view.even.scan.width; ++x) {
                const Candidate next{likeness_at(samples, view.even.scan, x, y), x, y, degrees};
                if (next.likeness > 0 && !is_of_other(next, view, beside, kOfTheOther))
                    found[turn].push_back(next);
            }
    });
    std::vector<Candidate> all;
    for (const auto& each : found) all.insert(all.end(), each.begin(), each.end());
    std::ranges::stable_sort(all, std::ranges::greater{}, &Candidate::likeness);
    return all;
}

// The best of those that are apart, at most so many.
std::vector<Candidate> apart(const std::vector<Candidate>& all, int near, std::size_t most) {
    std::vector<Candidate> best;
    for (const Candidate& next : all) {
        if (best.size() == most) break;
        const auto is_same = [&](const Candidate& other) {
            return std::hypot(next.x - other.x, next.y - other.y) < near;
        };
        if (std::ranges::none_of(best, is_same)) best.push_back(next);
    }
    return best;
}

// Each of the places where it is most alike, seen more nearly; most alike first. In even contrast the lid
// beside a print hardly counts, and long lines that are slid out over it lose little; plain tones tell it.
std::vector<Candidate> looked_at(const SmallView& view, const FrameWarp& beside,
                                 const std::vector<Candidate>& rough) {
    std::vector<Candidate> found(rough.size());
    in_parallel(rough.size(), [&](std::size_t i) {
        const int middle_x = kTimesNearer * rough[i].x, middle_y = kTimesNearer * rough[i].y;
        for (int turned = -kTurnedNearer; turned <= kTurnedNearer; ++turned) {
            const int degrees = rough[i].degrees + turned;
            const std::vector<Sample> even = samples_of(view, view.even.frame, beside, degrees),
                                      plain = samples_of(view, view.plain.frame, beside, degrees);
            for (int y = middle_y - kSlid; y <= middle_y + kSlid; ++y)
                for (int x = middle_x - kSlid; x <= middle_x + kSlid; ++x) {
                    const double likeness = (likeness_at(even, view.even.scan, x, y) +
                                             likeness_at(plain, view.plain.scan, x, y)) /
                                            2;
                    const Candidate next{likeness, x, y, degrees};
                    if (likeness > found[i].likeness &&
                        !is_of_other(next, view, beside, kTimesNearer * kOfTheOther))
                        found[i] = next;
                }
        }
    });
    std::ranges::stable_sort(found, std::ranges::greater{}, &Candidate::likeness);
    return found;
}

}  // namespace

FramePart piece_beside(const FramePart& shown, int width, int height) {
    const int wide = shown.right - shown.left, high = shown.bottom - shown.top;
    return std::max({FramePart{std::max(0, shown.left - wide), shown.top, shown.left, shown.bottom},
                     FramePart{shown.right, shown.top, std::min(width, shown.right + wide), shown.bottom},
                     FramePart{shown.left, std::max(0, shown.top - high), shown.right, shown.top},
                     FramePart{shown.left, shown.bottom, shown.right, std::min(height, shown.bottom + high)}},
                    [](const FramePart& a, const FramePart& b) { return a.area() < b.area(); });
}

std::vector<CoarsePlace> piece_places(const GreyImage& negative, const FramePart& piece,
                                      const GreyImage& scan, const FrameWarp& beside, std::size_t most) {
    const SmallView small = small_view(negative, piece, scan, beside, kSmallFrame);
    if (!(small.pitch > 1)) return {};
    const auto rough = apart(looked_over(small, beside), kOnePlace, kLookedAtForOne * most);
    const SmallView nearer = small_view(negative, piece, scan, beside, kNearerFrame);
    std::vector<CoarsePlace> places;
    for (const Candidate& next : apart(looked_at(nearer, beside, rough), kTimesNearer * kOnePlace, most))
        if (next.likeness > 0)
            places.push_back(
                {moved(beside, nearer.middle, radians(next.degrees), place_of(next, nearer.pitch)), {}});
    return places;
}

}  // namespace fogproof::registration
