// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/start_ladder.hpp"

#include <algorithm>
#include <cmath>

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

GridRequest bleach_ladder(const Printing& printing, const StartingPoint& point, const std::string& negative) {
    if (point.bleach_s.value <= 0)
        throw Error(Fault::config, "ladder", "the best print is not bleached",
                    "a negative and pack that want a bleach");
    GridRequest request = row_of(printing, point, negative);
    // From early to late on a logarithmic clock, the likely time in the middle.
    constexpr int kEachSide = 2;
    const auto rung = [&](int i) {
        const double end = i < 0 ? point.bleach_s.low : point.bleach_s.high;
        return point.bleach_s.value * std::pow(end / point.bleach_s.value, std::abs(i) / double(kEachSide));
    };
    std::vector<std::string> told;
    for (int i = -kEachSide; i <= kEachSide; ++i) told.push_back(two_digits(rung(i)) + "s");
    // Rungs of a narrow interval may be told alike.
    told.erase(std::unique(told.begin(), told.end()), told.end());
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
