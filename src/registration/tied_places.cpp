// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/tied_places.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"

namespace fogproof::registration {
namespace {

// Pixels, of about 1500 along the scan, by which a point that was pointed at is off. Judgement.
constexpr double kPointedAt = 4;
// Half diagonals by which a point may lie off the place that all tell together: taper, lens, a slip of the
// hand. Judgement.
constexpr double kMostOff = 0.05;
// Half diagonals by which the points must spread about their middle (root mean square). Judgement.
constexpr double kLeastSpread = 0.15;
// And across the line that runs through them best.
constexpr double kLeastAcross = 0.05;

struct Means {
    double u = 0, v = 0, x = 0, y = 0;
};

Means means(std::span<const TiePoint> points) {
    Means mean;
    for (const auto& [frame, scan] : points)
        mean.u += frame.u, mean.v += frame.v, mean.x += scan.x, mean.y += scan.y;
    const double count = double(points.size());
    return {mean.u / count, mean.v / count, mean.x / count, mean.y / count};
}

// Of some points about their middle, root mean square: along the line through them, and across it.
struct Spread {
    double along, across;
};

Spread spread(std::span<const TiePoint> points, const auto& place) {
    double x = 0, y = 0, xx = 0, yy = 0, xy = 0;
    const double count = double(points.size());
    for (const TiePoint& point : points) {
        const auto [px, py] = place(point);
        x += px / count, y += py / count;
    }
    for (const TiePoint& point : points) {
        const auto [px, py] = place(point);
        xx += (px - x) * (px - x) / count, yy += (py - y) * (py - y) / count,
            xy += (px - x) * (py - y) / count;
    }
    const double middle = (xx + yy) / 2, half = std::hypot((xx - yy) / 2, xy);
    return {std::sqrt(middle + half), std::sqrt(std::max(0.0, middle - half))};
}

// In a line they tell no more than two do, and not whether the print is a mirror image.
bool are_apart(std::span<const TiePoint> points) {
    const Spread frame = spread(points,
                                [](const TiePoint&point) {
                                    return std::pair{point.frame.u, point.frame.v};
                                }),
                 scan = spread(points, [](const TiePoint&point) {
                     return std::pair{point.scan.x, point.scan.y};
                 });
    return frame.along >= kLeastSpread && frame.across >= kLeastAcross && scan.along > 0 &&
           scan.across >= kLeastAcross / frame.along * scan.along / 2;
}

// Turned and grown alone, by least squares: a few points cannot tell taper.
FrameWarp similarity(std::span<const TiePoint> points) {
    const Means mean = means(points);
    double along = 0, across = 0, squares = 0;
    for (const TiePoint& point : points) {
        const double u = point.frame.u - mean.u, v = point.frame.v - mean.v, x = point.scan.x - mean.x,
                     y = point.scan.y - mean.y;
        along += x * u + y * v, across += y * u - x * v, squares += u * u + v * v;
    }
    const double a = along / squares, b = across / squares;
    return {{a, -b, mean.x - a * mean.u + b * mean.v, b, a, mean.y - b * mean.u - a * mean.v, 0, 0, 0}};
}

double miss(const FrameWarp& warp, const TiePoint& point) {
    const ScanPlace at = warp.at(point.frame);
    return std::hypot(at.x - point.scan.x, at.y - point.scan.y);
}

struct Fitted {
    TiedPlace tied;
    double worst;        ///< half diagonals
    double sum_squared;  ///< of half diagonals
    double pixels;       ///< the worst, in those of the scan
};

Fitted fitted(std::span<const TiePoint> points, bool is_mirrored) {
    std::vector<TiePoint> seen(points.begin(), points.end());
    if (is_mirrored)
        for (TiePoint& point : seen) point.frame.u = -point.frame.u;
    Fitted fit{{{similarity(seen), {}, kPointedAt}, is_mirrored}, 0, 0, 0};
    CoarsePlace& place = fit.tied.place;
    const CoarseHint found = CoarseHint::of(place.warp);
    for (const TiePoint& point : seen) {
        const double off = miss(place.warp, point) / found.growth;
        fit.worst = std::max(fit.worst, off), fit.sum_squared += off * off;
        place.agreeing.push_back({point.frame, point.scan, found.turn, found.growth, 0});
    }
    fit.pixels = fit.worst * found.growth;
    return fit;
}

Fitted fitted(std::span<const TiePoint> points) {
    Fitted as_it_is = fitted(points, false), mirrored = fitted(points, true);
    return mirrored.sum_squared < as_it_is.sum_squared ? mirrored : as_it_is;
}

struct Divided {
    Fitted one, other;
    [[nodiscard]] double sum_squared() const { return one.sum_squared + other.sum_squared; }
};

// A print is cut along one side of its frame, and both halves are the same way round.
std::vector<Divided> divided(std::span<const TiePoint> points) {
    std::vector<Divided> all;
    std::vector<TiePoint> sorted(points.begin(), points.end());
    for (const bool is_across : {true, false}) {
        std::ranges::sort(sorted, {}, [is_across](const TiePoint& point) {
            return is_across ? point.frame.u : point.frame.v;
        });
        const std::span<const TiePoint> row = sorted;
        for (std::size_t cut = kFewestTiePoints; cut + kFewestTiePoints <= row.size(); ++cut) {
            const auto one = row.first(cut), other = row.subspan(cut);
            if (!are_apart(one) || !are_apart(other)) continue;
            for (const bool is_mirrored : {false, true})
                all.push_back({fitted(one, is_mirrored), fitted(other, is_mirrored)});
        }
    }
    return all;
}

Error refused(const std::string& found) {
    return {Fault::usage, "--tie", found,
            std::to_string(kFewestTiePoints) +
                " or more points of a print, or of each half, far apart and not all in a line"};
}

}  // namespace

std::vector<TiedPlace> tied_places(std::span<const TiePoint> points, bool is_cut) {
    if (points.size() < kFewestTiePoints)
        throw refused(points.size() == 1 ? "is one point"
                                         : "are " + std::to_string(points.size()) + " points");
    if (!are_apart(points)) throw refused("the points lie too close together, or in a line");
    const Fitted whole = fitted(points);
    if (whole.worst < kMostOff) return {whole.tied};
    if (is_cut) {
        const auto all = divided(points);
        const auto best = std::ranges::min_element(all, {}, &Divided::sum_squared);
        if (best != all.end() && std::max(best->one.worst, best->other.worst) < kMostOff)
            return {best->one.tied, best->other.tied};
    }
    throw refused("the points contradict each other: together they tell a place from which one is " +
                  decimal(whole.pixels, 0) + " pixels off");
}

CutParts cut_between(const CoarsePlace& first, const CoarsePlace& second, const FrameGrid& grid) {
    const auto range = [](const CoarsePlace& place, double FramePlace::*along) {
        const auto [least, most] = std::ranges::minmax(
            place.agreeing, {}, [along](const Match& match) { return match.frame.*along; });
        return std::pair{least.frame.*along, most.frame.*along};
    };
    CutParts cut{{0, 0, grid.width, grid.height}, {0, 0, grid.width, grid.height}};
    double widest = -HUGE_VAL;
    for (const bool is_across : {true, false}) {
        const auto along = is_across ? &FramePlace::u : &FramePlace::v;
        const auto [first_least, first_most] = range(first, along);
        const auto [second_least, second_most] = range(second, along);
        const bool is_before = first_least < second_least;
        const double from = is_before ? first_most : second_most, to = is_before ? second_least : first_least;
        if (to - from < widest) continue;
        widest = to - from;
        const int length = is_across ? grid.width : grid.height;
        const double middle = (from + to) / 2 * half_diagonal(grid.width, grid.height) + length / 2.0;
        const int at = std::clamp(int(std::lround(middle)), 1, length - 1);
        cut = {{0, 0, grid.width, grid.height}, {0, 0, grid.width, grid.height}};
        FramePart &before = is_before ? cut.first : cut.second, &behind = is_before ? cut.second : cut.first;
        (is_across ? before.right : before.bottom) = at;
        (is_across ? behind.left : behind.top) = at;
    }
    return cut;
}

}  // namespace fogproof::registration
