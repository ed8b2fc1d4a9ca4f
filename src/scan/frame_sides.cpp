// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/frame_sides.hpp"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>
#include <vector>

namespace fogproof::scan {
namespace {

// Judgement, all of them.
constexpr double kVoting = 0.35;         // share of a side's lines that must meet picture
constexpr double kAgreeing = 0.5;        // share of those that must do so on one straight line
constexpr double kAgreeingHidden = 0.2;  // the same where the other sides say how it runs
constexpr double kHeldYet = 0.05;        // share of a side that a holder takes up to its end
constexpr double kSurrounding = 0.6;     // share of a side beyond which background of one kind must lie

/// Where background ends for good on every line, looking inwards from `start`.
std::vector<EdgePoint> ends_of_background(const SideView& view, const Background& background, Stretch stretch,
                                          int start) {
    const int lasting = std::max(3, int(0.02 * std::min(view.length(), view.depth())));
    std::vector<EdgePoint> ends;
    for (int along = stretch.first; along <= stretch.last; ++along) {
        int run = 0;
        for (int depth = start; depth < view.depth() * 6 / 10; ++depth) {
            run = background.covers(view.at(along, depth)) ? 0 : run + 1;
            if (run < lasting) continue;
            ends.push_back({double(along), double(depth + 1 - lasting)});
            break;
        }
    }
    return ends;
}

int covered_at(const SideView& view, const Background& background, Stretch stretch, int depth) {
    int covered = 0;
    for (int along = stretch.first; along <= stretch.last; ++along)
        covered += background.covers(view.at(along, depth));
    return covered;
}

/// Depth of the innermost gap to a neighbouring picture; 0 without one.
int gap_before(const SideView& view, const Background& background, Stretch stretch) {
    for (int depth = view.depth() * 35 / 100; depth > 0; --depth)
        if (covered_at(view, background, stretch, depth) > 0.92 * stretch.count()) return depth;
    return 0;
}

/// Depth where a holder at the rim of the scan has ended on all but a few lines; 0 without one.
int end_of_holder(const SideView& view, const Background& background, Stretch stretch) {
    const auto held_at = [&](int depth) {
        int held = 0;
        for (int along = stretch.first; along <= stretch.last; ++along)
            held += background.is_holder(view.at(along, depth));
        return held;
    };
    if (held_at(0) <= kSurrounding * stretch.count()) return 0;
    int depth = 1;
    while (depth < view.depth() * 35 / 100 && held_at(depth) > kHeldYet * stretch.count()) ++depth;
    return depth;
}

/// What most of a line has just outside of it.
FrameSide::Seen beyond(const SideView& view, const Background& background, Stretch stretch,
                       const EdgeLine& line) {
    const int middle = (stretch.first + stretch.last) / 2;
    if (line.depth(middle) < 2) return FrameSide::Seen::nothing;
    // The first pixel outside may be mixed, and perforations may begin soon after it.
    for (const int out : {2, 3, 4}) {
        int clear = 0, holder = 0;
        for (int along = stretch.first; along <= stretch.last; ++along) {
            const int depth = int(std::lround(line.depth(along))) - out;
            const double density = view.at(along, std::clamp(depth, 0, view.depth() - 1));
            clear += background.is_clear(density);
            holder += background.is_holder(density);
        }
        if (clear > kSurrounding * stretch.count()) return FrameSide::Seen::clear;
        if (holder > kSurrounding * stretch.count()) return FrameSide::Seen::holder;
    }
    return FrameSide::Seen::nothing;
}

FrameSide judged(const SideView& view, const Background& background, Stretch stretch, const EdgeLine& line,
                 std::span<const EdgePoint> ends) {
    const auto agreeing =
        std::count_if(ends.begin(), ends.end(), [&](const EdgePoint& end) { return lies_on(line, end); });
    // Lines that meet no picture at all do not vote, as long as enough others do.
    if (double(ends.size()) < kVoting * stretch.count() || double(agreeing) < kAgreeing * double(ends.size()))
        return {};
    const auto seen = beyond(view, background, stretch, line);
    return seen == FrameSide::Seen::nothing ? FrameSide{} : FrameSide{seen, line};
}

FrameSide first_side(const SideView& view, const Background& background, Stretch stretch, int start) {
    const auto ends = ends_of_background(view, background, stretch, start);
    const auto line = edge_through(ends);
    return line ? judged(view, background, stretch, *line, ends) : FrameSide{};
}

/// A picture that comes straight out of the holder or the rim of the scan may be a neighbour cut off: if a
/// gap of clear film follows, the frame begins behind it.
FrameSide side_of_frame(const SideView& view, const Background& background, Stretch stretch) {
    const FrameSide outer = first_side(view, background, stretch, 0);
    if (outer.seen == FrameSide::Seen::clear) return outer;
    const int gap = gap_before(view, background, stretch);
    const FrameSide inner = gap > 0 ? first_side(view, background, stretch, gap) : FrameSide{};
    return inner.seen == FrameSide::Seen::clear ? inner : outer;
}

double middle_depth(const FrameSide& side, const SideView& view) {
    return side.seen == FrameSide::Seen::nothing ? 0.0 : side.line.depth(0.5 * view.length());
}

/// The slope that one side has when the frame as a whole has this one.
double turned(double slope, Side side) {
    // Turned clockwise, a frame sinks to the right on top and rises from below, and so on around.
    return side == kTop || side == kRight ? slope : -slope;
}

/// A side most of which is hidden by deep shadows that touch it. It runs as the other sides do, so where it
/// lies is the only question: where a fair share of the lines agree, else at the first picture that is seen.
FrameSide hidden_side(const SideView& view, const Background& background, Stretch stretch, double slope) {
    const auto ends = ends_of_background(view, background, stretch, 0);
    FrameSide unseen{.is_hidden = covered_at(view, background, stretch, 1) > kSurrounding * stretch.count()};
    // What lies under the holder is no picture, wherever the picture begins.
    if (const int end = end_of_holder(view, background, stretch); end > 0)
        unseen = {FrameSide::Seen::holder, {double(end), 0}, true};
    if (double(ends.size()) < kAgreeingHidden * stretch.count()) return unseen;
    std::vector<double> starts;
    for (const auto& end : ends) starts.push_back(end.depth - slope * end.along);
    std::sort(starts.begin(), starts.end());
    EdgeLine line{starts[starts.size() / 50], slope};
    bool is_hidden = true;
    std::size_t most = 0;
    for (std::size_t first = 0, last = 0; first < starts.size(); ++first) {
        while (last < starts.size() && starts[last] <= starts[first] + 2 * kOnEdge) ++last;
        if (last - first <= most) continue;
        most = last - first;
        if (double(most) < kAgreeingHidden * stretch.count()) continue;
        line.at = starts[first + most / 2];
        is_hidden = false;
    }
    const auto seen = beyond(view, background, stretch, line);
    return seen == FrameSide::Seen::nothing ? unseen : FrameSide{seen, line, is_hidden};
}

}  // namespace

/// A first round over the middle half of each side finds about where they are, the second looks at all of
/// each.
FrameSides sides_of_frame(const SmallScan& scan, const Background& background) {
    FrameSides sides;
    for (const Side side : kSides) {
        const SideView view(scan, side);
        sides[side] = side_of_frame(view, background, {view.length() / 4, view.length() * 3 / 4});
    }
    const FrameSides about = sides;
    for (const Side side : kSides)
        sides[side] = side_of_frame(SideView(scan, side), background, between(scan, about, side));
    const FrameSides plain = sides;
    if (!enclose(plain)) return sides;
    for (const Side side : kSides)
        if (plain[side].seen == FrameSide::Seen::nothing)
            sides[side] = hidden_side(SideView(scan, side), background, between(scan, plain, side),
                                      turned(slope_of(plain), side));
    return sides;
}

FrameSides sides_of_what_is_seen(const SmallScan& scan, const Background& background) {
    FrameSides sides;
    for (const Side side : kSides) {
        const SideView view(scan, side);
        sides[side] = hidden_side(view, background, {0, view.length() - 1}, 0);
        sides[side].is_hidden = true;
    }
    return sides;
}

bool enclose(const FrameSides& sides) {
    const auto seen = [&](Side side) { return sides[side].seen != FrameSide::Seen::nothing; };
    return (seen(kTop) && seen(kBottom)) || (seen(kLeft) && seen(kRight));
}

Stretch between(const SmallScan& scan, const FrameSides& sides, Side side) {
    const auto [before, after] = side <= kBottom ? std::pair{kLeft, kRight} : std::pair{kTop, kBottom};
    const SideView view(scan, side);
    const int first = int(std::ceil(middle_depth(sides[before], SideView(scan, before)))) + 2;
    const int last = view.length() - 3 - int(std::ceil(middle_depth(sides[after], SideView(scan, after))));
    return last - first >= 8 ? Stretch{first, last} : Stretch{0, view.length() - 1};
}

double middle_slope(const FrameSides& sides) {
    std::vector<double> slopes;
    for (const Side side : kSides)
        if (sides[side].seen != FrameSide::Seen::nothing && !sides[side].is_hidden)
            slopes.push_back(turned(sides[side].line.slope, side));
    if (slopes.empty()) return 0;
    std::ranges::sort(slopes);
    return (slopes[(slopes.size() - 1) / 2] + slopes[slopes.size() / 2]) / 2;
}

double slope_of(const FrameSides& sides) {
    double sum = 0, count = 0;
    for (const Side side : kSides) {
        if (sides[side].seen == FrameSide::Seen::nothing) continue;
        sum += turned(sides[side].line.slope, side);
        count += 1;
    }
    return count > 0 ? sum / count : 0;
}

}  // namespace fogproof::scan
