// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/step_pitch.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/quantile.hpp"

namespace fogproof::reading {
namespace {

// Judgement: how far an edge may lie off its place, in pitches, and what share of the edges' weight must
// keep to it.
constexpr double kOffPlace = 0.15, kShareInPlace = 0.85;
// Judgement: how far from a whole number of pitches the paper beyond the last edge may end.
constexpr double kWholeSteps = 0.3;
// Judgement: the least length of the first and last step, in pitches.
constexpr double kShortestStep = 0.6;
// Judgement: bands exposed by hand are uneven, but not by more than this.
constexpr double kMostUnevenPitch = 3.0;
// Judgement: a band of a test strip may be as short as this at its end, in pitches; less is a margin of the
// paper.
constexpr double kShortestBand = 0.35;
// Judgement: several bands that look like one take about 0.9 pitches each, less so much in all, three or more
// not all being short. Two easily hide in 1.35 pitches, and hardly in less than 1.15.
constexpr double kBandAmongSeveral = 0.9, kEasilyShortBy = 0.45, kHardlyShortBy = 0.65;
// Judgement: so many edges so near their places, in pitches, were printed and not made by hand.
constexpr int kEdgesOfWedge = 6;
constexpr double kOffPlaceOfWedge = 0.03;
// Judgement: a bound farther from every edge, in pitches, was not seen.
constexpr double kSeenNear = 0.3;

// A straight line through (k, u), least squares, grown one edge at a time.
class Line {
  public:
    void add(int k, double u) {
        n_ += 1, k_ += k, kk_ += double(k) * k, u_ += u, ku_ += k * u;
        points_.emplace_back(k, u);
    }
    [[nodiscard]] double pitch() const { return (n_ * ku_ - k_ * u_) / (n_ * kk_ - k_ * k_); }
    [[nodiscard]] double phase() const { return (u_ - pitch() * k_) / n_; }
    /// How far the edges lie off the line, root mean square, in pitches.
    [[nodiscard]] double off() const {
        double squares = 0;
        for (const auto& [k, u] : points_) squares += std::pow((u - phase()) / pitch() - k, 2);
        return std::sqrt(squares / n_);
    }

  private:
    double n_ = 0, k_ = 0, kk_ = 0, u_ = 0, ku_ = 0;
    std::vector<std::pair<int, double>> points_{};
};

struct Tried {
    Pitch pitch;
    double score = -1e9, share = 0;
};

// The row that two neighbouring edges begin, carried on to both sides.
Tried row_from(std::span<const Edge> edges, std::size_t first, double weight_of_all) {
    Line line;
    line.add(0, edges[first].u);
    line.add(1, edges[first + 1].u);
    const double least = (edges[first + 1].u - edges[first].u) / 2;
    double weight = std::abs(edges[first].rise) + std::abs(edges[first + 1].rise);
    int low = 0, high = 1, kept = 2;
    const auto carry_on = [&](const Edge& edge) {
        const double place = (edge.u - line.phase()) / line.pitch();
        const int k = int(std::lround(place));
        if (std::abs(place - k) > kOffPlace || (k >= low && k <= high)) return;
        line.add(k, edge.u);
        weight += std::abs(edge.rise);
        low = std::min(low, k), high = std::max(high, k), ++kept;
    };
    for (std::size_t i = first + 2; i < edges.size() && line.pitch() > least; ++i) carry_on(edges[i]);
    for (std::size_t i = first; i-- > 0 && line.pitch() > least;) carry_on(edges[i]);
    const int missing = high - low + 1 - kept;
    return {{line.phase() + low * line.pitch(), line.pitch(), high - low, kept, line.off()},
            weight / weight_of_all - 0.5 * missing / double(kept),
            weight / weight_of_all};
}

int whole_steps_beyond(double pitches) {
    const double nearest = std::round(pitches);
    const int whole = int(std::abs(pitches - nearest) <= kWholeSteps ? nearest : std::floor(pitches));
    return std::max(0, whole - 1);
}

std::string words(int count) {
    return std::to_string(count) + (count == 1 ? " step" : " steps");
}

std::string as_told(int steps) {
    return words(steps) + " expected (--steps " + std::to_string(steps) + ")";
}

// One end of the row: the stretch between the paper's end and the edge next to it.
struct RowEnd {
    double length;  ///< in pitches
    int outer;      ///< 1 where it holds a step, 0 where it is a margin of the paper
    int room;       ///< further steps that it has room for
    explicit RowEnd(double pitches)
        : length(pitches), outer(pitches >= kShortestStep), room(whole_steps_beyond(pitches)) {}
    /// Bands made by hand could fill it, short by so much in all.
    [[nodiscard]] bool may_hold(int bands, double short_by) const {
        return length >= std::max(kShortestBand, kBandAmongSeveral * bands - short_by);
    }
    /// What is left of it past its own step and `added` more; nothing where no step could be meant by it.
    [[nodiscard]] double left(int added) const {
        if (outer == 0) return length >= kShortestBand ? length : 0;
        return room > added ? length - 1 - added : 0;
    }
};

bool is_exact(const Pitch& row) {
    return row.edges >= kEdgesOfWedge && row.off <= kOffPlaceOfWedge;
}

// Bands made by hand are uneven: steps that merged into one stretch may as well have merged into another one
// that is long enough. Printed wedges are too regular for that.
bool may_lie_elsewhere(const Pitch& row, const RowEnd& before, const RowEnd& after, int first, int last,
                       double short_by) {
    if (is_exact(row)) return false;
    const int unseen_between = row.last + 1 - row.edges;
    return (first + unseen_between > 0 && after.may_hold(after.outer + last + 1, short_by)) ||
           (last + unseen_between > 0 && before.may_hold(before.outer + first + 1, short_by));
}

std::vector<StepRange> steps_alike(std::span<const Edge> edges, const Bounds& bounds, const Run& run,
                                   double pitch) {
    std::vector<StepRange> alike;
    for (int i = 1; i + 1 < int(bounds.at.size()); ++i) {
        const double at = bounds.at[std::size_t(i)], near = kSeenNear * pitch;
        const bool is_past_end = at < run.start + near || at > run.end - near;
        if (is_past_end ||
            std::ranges::any_of(edges, [&](const Edge& edge) { return std::abs(edge.u - at) < near; }))
            continue;
        if (!alike.empty() && alike.back().last == i - 1)
            alike.back().last = i;
        else
            alike.push_back({i - 1, i});
    }
    return alike;
}

// All edges seen: they are the bounds, however uneven.
Bounds bounds_as_seen(std::span<const Edge> edges, const Run& run) {
    Bounds bounds{{run.start}, 0, false};
    for (const Edge& edge : edges) bounds.at.push_back(edge.u);
    bounds.at.push_back(run.end);
    std::vector<double> inner;
    for (std::size_t i = 1; i < edges.size(); ++i) inner.push_back(edges[i].u - edges[i - 1].u);
    if (inner.empty()) return bounds;
    const double usual = median(std::move(inner));
    const RowEnd before((edges.front().u - run.start) / usual), after((run.end - edges.back().u) / usual);
    // A short one is a step here.
    bounds.left_before = before.outer > 0 ? before.left(0) : 0;
    bounds.left_after = after.outer > 0 ? after.left(0) : 0;
    return bounds;
}

std::pair<std::string, std::string> both_ends_open(int seen, int wanted) {
    return {words(seen) + " can be told apart, and the paper at both ends leaves open which " +
                std::to_string(wanted) + " are meant",
            "as many steps or seconds as can be told apart (one for bands that look alike), or a --frame "
            "around the steps alone"};
}

BoundsOrFault regular_bounds(std::span<const Edge> edges, const Pitch& row, const Run& run,
                             std::optional<int> steps) {
    const RowEnd before((row.at(0) - run.start) / row.pitch), after((run.end - row.at(row.last)) / row.pitch);
    const int seen = row.last + before.outer + after.outer, room = before.room + after.room;
    const int wanted = steps.value_or(seen + room), extra = wanted - seen;
    int first = 0, last = 0, beyond = 0;  // steps added before and after
    const std::string found = words(seen + room) + " found";
    if (extra < 0) return std::pair{found, as_told(wanted)};
    if (extra <= room) {
        const bool all = extra == room;
        first = all || after.room == 0 ? std::min(extra, before.room) : before.room == 0 ? 0 : -1;
        if (extra == 0) first = 0;
        if (first < 0) return both_ends_open(seen, wanted);
        last = extra - first;
        if (steps && may_lie_elsewhere(row, before, after, first, last, kEasilyShortBy))
            return both_ends_open(seen, wanted);
    } else {
        // "A few" merged steps may go on past an end where paper and lid look alike, while the picture lasts.
        const int past = extra - room;
        const bool one_open = run.open_start != run.open_end;
        const double reach = run.open_start ? run.reach_start : run.reach_end;
        if (!one_open || past > std::max(2, wanted / 3) || past * row.pitch > reach + kWholeSteps * row.pitch)
            return std::pair{found, as_told(wanted)};
        first = before.room + (run.open_start ? past : 0);
        last = after.room + (run.open_end ? past : 0);
        beyond = past;
    }
    Bounds bounds{{}, beyond, true, !steps && run.hidden, is_exact(row)};
    for (int k = -before.outer - first; k <= row.last + after.outer + last; ++k)
        bounds.at.push_back(row.at(k));
    // The outermost bounds are the paper's where that is cut shorter than a step.
    if (!(run.open_start && beyond > 0)) bounds.at.front() = std::max(bounds.at.front(), run.start);
    if (!(run.open_end && beyond > 0)) bounds.at.back() = std::min(bounds.at.back(), run.end);
    bounds.beyond_at_start = beyond > 0 && run.open_start;
    bounds.alike = steps_alike(edges, bounds, run, row.pitch);
    bounds.elsewhere = may_lie_elsewhere(row, before, after, first, last, kHardlyShortBy);
    bounds.left_before = before.left(first), bounds.left_after = after.left(last);
    return bounds;
}

}  // namespace

std::optional<Pitch> regular_pitch(std::span<const Edge> edges) {
    if (edges.size() < 2) return std::nullopt;
    double weight = 0;
    for (const Edge& edge : edges) weight += std::abs(edge.rise);
    Tried best;
    for (std::size_t first = 0; first + 1 < edges.size(); ++first)
        if (const Tried tried = row_from(edges, first, weight); tried.score > best.score) best = tried;
    if (best.share < kShareInPlace || best.score < 0.5 * kShareInPlace) return std::nullopt;
    return best.pitch;
}

BoundsOrFault step_bounds(std::span<const Edge> edges, const Run& run, std::optional<int> steps) {
    const int bands = int(edges.size()) + 1, told = steps.value_or(bands);
    const auto row = regular_pitch(edges);
    // Two edges always have a pitch; it counts only if the paper's ends keep to it.
    const bool row_holds = row && (edges.size() > 2 || (row->at(0) - run.start > 0.6 * row->pitch &&
                                                        run.end - row->at(row->last) > 0.6 * row->pitch));
    std::optional<Bounds> divided;
    if (row_holds) {
        const auto bounds = regular_bounds(edges, *row, run, steps);
        const auto* regular = std::get_if<Bounds>(&bounds);
        // Bands of which each has its own edges are those that are told, rather than such a division by
        // length.
        const bool is_divided = regular && !regular->exact && !regular->alike.empty();
        if (!steps || told != bands || (regular && !is_divided)) return bounds;
        if (regular) divided = *regular;
    }
    const Bounds as_seen = bounds_as_seen(edges, run);
    double shortest = 1e300, longest = 0;
    for (std::size_t i = 1; i < as_seen.at.size(); ++i) {
        shortest = std::min(shortest, as_seen.at[i] - as_seen.at[i - 1]);
        longest = std::max(longest, as_seen.at[i] - as_seen.at[i - 1]);
    }
    if (told != bands)
        return std::pair{words(bands) + " can be told apart, at no regular distance", as_told(told)};
    if (longest > kMostUnevenPitch * shortest && divided) return *divided;
    if (longest > kMostUnevenPitch * shortest)
        return std::pair{"edges at no regular distance, bands from " + std::to_string(std::lround(shortest)) +
                             " to " + std::to_string(std::lround(longest)) + " pixels long",
                         "steps of one length, or bands that differ by less than 3 to 1"};
    return as_seen;
}

}  // namespace fogproof::reading
