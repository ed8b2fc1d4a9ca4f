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

// Pixels along the longer side of the frame: as many as show a turn of a degree or two.
constexpr int kSmallFrame = 80;
// Contrast is evened over so many of them.
constexpr double kEvenedSmall = 6;
// A piece is laid beside another by hand: turned by so much at most, and from one try to the next. Degrees.
constexpr int kMostTurned = 9, kTurnedApart = 3;
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
    double likeness;
    int x, y, degrees;
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

}  // namespace

std::vector<CoarsePlace> piece_places(const GreyImage& negative, const FramePart& piece,
                                      const GreyImage& scan, const FrameWarp& beside, std::size_t most) {
    const double smaller = double(kSmallFrame) / std::max(negative.width, negative.height);
    const auto shrunk = [smaller](int pixels) { return std::max(1, int(std::lround(pixels * smaller))); };
    const GreyImage frame = with_even_contrast(
        area_means(negative, shrunk(negative.width), shrunk(negative.height)), kEvenedSmall);
    const FrameGrid grid{frame.width, frame.height};
    const double pitch = CoarseHint::of(beside).growth / half_diagonal(grid.width, grid.height);
    if (!(pitch > 1)) return {};
    const GreyImage small =
        with_even_contrast(area_means(scan, std::max(1, int(std::lround(scan.width / pitch))),
                                      std::max(1, int(std::lround(scan.height / pitch)))),
                           kEvenedSmall);
    const FramePart part{shrunk(piece.left + 1) - 1, shrunk(piece.top + 1) - 1,
                         std::min(shrunk(piece.right), grid.width),
                         std::min(shrunk(piece.bottom), grid.height)};
    const FramePlace middle = grid.place_of((part.left + part.right) / 2.0, (part.top + part.bottom) / 2.0);

    const ScanPlace of_other = beside.at(middle);

    std::vector<std::vector<Candidate>> found(2 * kMostTurned / kTurnedApart + 1);
    in_parallel(found.size(), [&](std::size_t turn) {
        const int degrees = int(turn) * kTurnedApart - kMostTurned;
        const FrameWarp turned =
            moved(beside, middle, degrees * std::numbers::pi / 180, {0, 0}).on_pixels(pitch);
        std::vector<Sample> samples;
        for (int y = part.top; y < part.bottom; ++y)
            for (int x = part.left + y % 2; x < part.right; x += 2) {  // every other one tells as much
                const ScanPlace at = turned.at(grid.place(x, y));
                samples.push_back({int(std::lround(at.x)), int(std::lround(at.y)), frame.at(x, y)});
            }
        for (int y = 0; y < small.height; ++y)
            for (int x = 0; x < small.width; ++x)
                if (const double likeness = likeness_at(samples, small, x, y);
                    likeness > 0 &&
                    std::hypot(x + 0.5 - of_other.x / pitch, y + 0.5 - of_other.y / pitch) > kOfTheOther)
                    found[turn].push_back({likeness, x, y, degrees});
    });
    std::vector<Candidate> all;
    for (const auto& each : found) all.insert(all.end(), each.begin(), each.end());
    std::ranges::stable_sort(all, std::ranges::greater{}, &Candidate::likeness);
    std::vector<Candidate> best;
    std::vector<CoarsePlace> places;
    for (const Candidate& next : all) {
        if (places.size() == most) break;
        const auto is_same = [&next](const Candidate& other) {
            return std::hypot(next.x - other.x, next.y - other.y) < kOnePlace;
        };
        if (std::ranges::any_of(best, is_same)) continue;
        best.push_back(next);
        places.push_back({moved(beside, middle, next.degrees * std::numbers::pi / 180,
                                {(next.x + 0.5) * pitch, (next.y + 0.5) * pitch}),
                          {}});
    }
    return places;
}

}  // namespace fogproof::registration
