// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/pull_rule.hpp"

#include <algorithm>

#include "base/words.hpp"
#include "print/toner_words.hpp"

namespace fogproof::report {

std::string pull_rule(std::optional<double> clearing_percent, double border_short, Toner toner,
                      bool has_edge_fog) {
    constexpr double kLeast = 95, kMost = 105;
    if (tones_bleached(toner))
        return "Take it out by the clock: the toner brings back all that the bleach takes, the fog too.";
    if (!clearing_percent)
        return "Take it out by the clock: the border has no fog, so it cannot show when to stop.";
    if (has_edge_fog)
        return "Take it out by the clock, " + fixed(*clearing_percent, 0) +
               " % of clearing: the border has more fog than the picture and clears later.";
    const std::string depth = fixed(*clearing_percent, 0) + " % of clearing";
    if (*clearing_percent < kLeast)
        return "Take it out while the border is still a shade greyer than the fixed slip (" + depth + ", " +
               fixed(std::max(border_short, 0.0), 1) +
               " L* darker than the slip). Do not wait until the border stops getting brighter.";
    if (*clearing_percent > kMost)
        return "Leave it in for the full time, " + depth +
               ": the border stops getting brighter before the print is done.";
    return "Take it out when the border stops getting brighter: that is full clearing.";
}

}  // namespace fogproof::report
