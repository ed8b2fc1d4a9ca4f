// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/strip_doubts.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

#include "base/markup.hpp"
#include "base/shortest.hpp"
#include "base/words.hpp"

namespace fogproof::reading {
namespace {

// Paper this much shorter than a step, in steps, is told as half of one.
constexpr double kHalf = 0.6;

// Several steps are named by their ends, so that a long wedge still makes one line.
std::string named(int first, int last) {
    if (first == last) return "step " + std::to_string(first);
    return "steps " + std::to_string(first) + (last == first + 1 ? " and " : " to ") + std::to_string(last);
}

// " (4 s, 2 s)", where seconds are told.
std::string seconds_of(const StripLabels& labels, int first, int last) {
    std::vector<double> longest_first = labels.exposures;
    std::ranges::sort(longest_first, std::greater<>());
    if (first < 1 || last > int(longest_first.size())) return {};
    const auto at = [&](int step) { return shortest(longest_first[std::size_t(step - 1)]) + " s"; };
    if (first == last) return " (" + at(first) + ")";
    return " (" + at(first) + (last == first + 1 ? ", " : " to ") + at(last) + ")";
}

std::string as_steps(double pitches) {
    const int whole = std::max(1, int(std::lround(pitches)));
    return std::to_string(whole) + (whole == 1 ? " step" : " steps");
}

}  // namespace

Remarks strip_doubts(const StripReading& strip, const StripLabels& labels) {
    Remarks said;
    const StepDoubt& doubt = strip.doubt;
    const std::string name = "strip " + plain_line(labels.common.strip) + ": ";
    for (const auto& [first, last] : doubt.alike) {
        const std::string line = name + named(first, last) + seconds_of(labels, first, last) +
                                 " cannot be told apart; one even stretch was divided by length";
        if (doubt.elsewhere)
            said.warnings.push_back(
                line +
                ". If bands at the other end merged instead, the steps between are shifted: "
                "--picture shows them");
        else
            said.notes.push_back(line);
    }
    if (doubt.like_lid > 0) {
        const int first = doubt.dark_like_lid ? 1 : strip.step_count - doubt.like_lid + 1,
                  last = first + doubt.like_lid - 1;
        said.warnings.push_back(name + named(first, last) + seconds_of(labels, first, last) +
                                (doubt.like_lid == 1 ? " looks like the background; its place continues"
                                                     : " look like the background; their places continue") +
                                " the others, and if there are fewer steps than told, all are shifted");
    }
    const std::string are_more = " is left beyond the darkest: are there more than the " +
                                 std::to_string(strip.step_count) + " told? Then all are shifted";
    const bool has_light = labels.wedge || !labels.exposures.empty() || labels.common.exposure_s;
    if (strip.step_count > 1 && !has_light && labels.common.develop_s.value_or(1) > 0)
        said.warnings.push_back(
            name + "no seconds are told, so its " + std::to_string(strip.step_count) +
            " steps are taken as unexposed; --exposures tells those of a test strip, --wedge "
            "the densities of a wedge");
    // A printed wedge has margins.
    const auto is_half = [&](double left) { return left > 0 && left < kHalf && !doubt.exact; };
    if (doubt.left_dark >= kHalf || is_half(doubt.left_dark))
        said.warnings.push_back(name + "as much paper as " +
                                (doubt.left_dark < kHalf ? "half a step" : as_steps(doubt.left_dark)) +
                                are_more);
    if (is_half(doubt.left_light))
        said.warnings.push_back(name +
                                "as much paper as half a step is left beyond the lightest and taken as a "
                                "margin; if it is a step, all are shifted");
    return said;
}

}  // namespace fogproof::reading
