// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/start_ladder.hpp"

#include <algorithm>
#include <cmath>

#include "base/shortest.hpp"
#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/grade_words.hpp"

namespace fogproof::proof {

namespace {

// Exposure and filter of a point, in seconds, in one row of the grid.
GridRequest row_of(const Printing& printing, const StartingPoint& point, const std::string& negative) {
    if (!printing.pack().darkroom.anchored)
        throw Error(Fault::config, "ladder", "the pack has no anchor",
                    "an [anchor] in the pack, or --black-time");
    GridRequest request;
    request.negative = negative;
    request.base = point.recipe;
    request.base.exposures.front().amount = Seconds{point.exposure_s.value};
    request.down = axis_of(AxisQuantity::grade, {grade_name(point.found.grade)}, "ladder");
    return request;
}

}  // namespace

GridRequest bleach_ladder(const Printing& printing, const StartingPoint& point, const std::string& negative,
                          std::vector<Seconds> times) {
    const double told_s = point.bleach_s.value;
    if (told_s <= 0)
        throw Error(Fault::config, "ladder", "the best print is not bleached",
                    "a negative and pack that want a bleach");
    GridRequest request = row_of(printing, point, negative);
    const auto rounded = [](double seconds) { return number_in(two_digits(seconds)).value_or(seconds); };
    // Half stops of time to either side. Times that are asked for stay as they are.
    if (times.empty())
        for (const double stops : {-1.0, -0.5, 0.5, 1.0})
            times.push_back({rounded(told_s * std::exp2(stops))});
    times.push_back({rounded(told_s)});
    std::ranges::sort(times, {}, &Seconds::value);
    const auto is_same = [](Seconds a, Seconds b) { return a.value == b.value; };
    times.erase(std::unique(times.begin(), times.end(), is_same), times.end());
    const auto recommended = std::ranges::find(times, rounded(told_s), &Seconds::value);
    request.recommended = std::size_t(recommended - times.begin());
    std::vector<std::string> told;
    for (const Seconds time : times) told.push_back(shortest(time.value) + "s");
    request.across = axis_of(AxisQuantity::bleach, told, "ladder");
    return request;
}

GridRequest rescue_ladder(const Printing& printing, const StartingPoint& point, Seconds bleached,
                          const std::string& negative) {
    GridRequest request = row_of(printing, point, negative);
    request.base.bleach = bleached;
    request.across = axis_of(AxisQuantity::redevelop, {"0", "5", "10", "20", "40", "160"}, "ladder");
    return request;
}

}  // namespace fogproof::proof
