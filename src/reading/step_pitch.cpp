// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/step_pitch.hpp"

#include <cmath>

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

// A straight line through (k, u), least squares, grown one edge at a time.
class Line {
  public:
    void add(int k, double u) { n_ += 1, k_ += k, kk_ += double(k) * k, u_ += u, ku_ += k * u; }
    [[nodiscard]] double pitch() const { return (n_ * ku_ - k_ * u_) / (n_ * kk_ - k_ * k_); }
    [[nodiscard]] double phase() const { return (u_ - pitch() * k_) / n_; }

  private:
    double n_ = 0, k_ = 0, kk_ = 0, u_ = 0, ku_ = 0;
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
    return {{line.phase() + low * line.pitch(), line.pitch(), high - low},
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

// All edges seen: they are the bounds, however uneven.
Bounds bounds_as_seen(std::span<const Edge> edges, const Run& run) {
    Bounds bounds{{run.start}, 0, false};
    for (const Edge& edge : edges) bounds.at.push_back(edge.u);
    bounds.at.push_back(run.end);
    return bounds;
}

BoundsOrFault regular_bounds(const Pitch& row, const Run& run, std::optional<int> steps) {
    const double before = (row.at(0) - run.start) / row.pitch,
                 after = (run.end - row.at(row.last)) / row.pitch;
    // What is much shorter than a step is the margin of the paper.
    const int outer_before = before >= kShortestStep, outer_after = after >= kShortestStep;
    const int seen = row.last + outer_before + outer_after;
    const int room_before = whole_steps_beyond(before), room_after = whole_steps_beyond(after);
    const int wanted = steps.value_or(seen + room_before + room_after), extra = wanted - seen;
    int first = 0, last = 0, beyond = 0;  // steps added before and after
    const std::string found = words(seen + room_before + room_after) + " found";
    if (extra < 0) return std::pair{found, as_told(wanted)};
    if (extra <= room_before + room_after) {
        const bool all = extra == room_before + room_after;
        first = all || room_after == 0 ? std::min(extra, room_before) : room_before == 0 ? 0 : -1;
        if (extra == 0) first = 0;
        if (first < 0)
            return std::pair{words(seen) +
                                 " can be told apart, and plain paper at both ends leaves open which " +
                                 std::to_string(wanted) + " are meant",
                             "a --frame around the steps alone"};
        last = extra - first;
    } else {
        // "A few" merged steps may go on past an end where paper and lid look alike, while the picture lasts.
        const int past = extra - room_before - room_after;
        const bool one_open = run.open_start != run.open_end;
        const double reach = run.open_start ? run.reach_start : run.reach_end;
        if (!one_open || past > std::max(2, wanted / 3) || past * row.pitch > reach + kWholeSteps * row.pitch)
            return std::pair{found, as_told(wanted)};
        first = room_before + (run.open_start ? past : 0);
        last = room_after + (run.open_end ? past : 0);
        beyond = past;
    }
    Bounds bounds{{}, beyond, true, !steps && run.hidden};
    for (int k = -outer_before - first; k <= row.last + outer_after + last; ++k)
        bounds.at.push_back(row.at(k));
    // The outermost bounds are the paper's where that is cut shorter than a step.
    if (!(run.open_start && beyond > 0)) bounds.at.front() = std::max(bounds.at.front(), run.start);
    if (!(run.open_end && beyond > 0)) bounds.at.back() = std::min(bounds.at.back(), run.end);
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
    if (row_holds) {
        const auto bounds = regular_bounds(*row, run, steps);
        if (std::holds_alternative<Bounds>(bounds) || !steps || told != bands) return bounds;
    }
    const Bounds as_seen = bounds_as_seen(edges, run);
    double shortest = 1e300, longest = 0;
    for (std::size_t i = 1; i < as_seen.at.size(); ++i) {
        shortest = std::min(shortest, as_seen.at[i] - as_seen.at[i - 1]);
        longest = std::max(longest, as_seen.at[i] - as_seen.at[i - 1]);
    }
    if (told != bands)
        return std::pair{words(bands) + " can be told apart, at no regular distance", as_told(told)};
    if (longest > kMostUnevenPitch * shortest)
        return std::pair{"edges at no regular distance, bands from " + std::to_string(std::lround(shortest)) +
                             " to " + std::to_string(std::lround(longest)) + " pixels long",
                         "steps of one length, or bands that differ by less than 3 to 1"};
    return as_seen;
}

}  // namespace fogproof::reading
