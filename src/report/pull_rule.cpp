// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/pull_rule.hpp"

#include <algorithm>

#include "base/words.hpp"

namespace fogproof::report {

std::string pull_rule(std::optional<double> clearing_percent, double border_short) {
    constexpr double kLeast = 95, kMost = 105;
    if (!clearing_percent) return "Out by the clock: this sheet has no fog that the border could lose.";
    const std::string depth = fixed(*clearing_percent, 0) + " % of clearing";
    if (*clearing_percent < kLeast)
        return "Out while the border is still a shade greyer than the fixed slip: " + depth + ", " +
               fixed(std::max(border_short, 0.0), 1) +
               " L* short of its white. Waiting until the border gets no brighter would be too long.";
    if (*clearing_percent > kMost)
        return "Leave it in for the full time, " + depth +
               ": the border stops getting brighter before the print is done.";
    return "Out when the border gets no brighter: that is full clearing.";
}

}  // namespace fogproof::report
