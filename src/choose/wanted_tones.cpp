// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/wanted_tones.hpp"

#include <algorithm>
#include <cmath>

#include "fogproof/print/print_model.hpp"

namespace fogproof::choose {

std::size_t line_of(const PlaceWork& work, std::vector<PlaceWork>& lines) {
    const PlaceWork curve = work.curve();
    const auto found = std::ranges::find(lines, curve);
    const auto line = std::size_t(found - lines.begin());
    if (found == lines.end()) lines.push_back(curve);
    return line;
}

PrintMiss miss_of(const Wanted& wanted, const PrintModel& print) {
    const Adaptation eye = Adaptation::between(print.border().lab.l, wanted.white);
    double plain = 0, seen = 0;
    for (std::size_t i = 0; i < wanted.tones.size(); ++i) {
        const double l = print.patch_of(wanted.tones[i]).lab.l, share = wanted.tones[i].share;
        plain += share * std::pow(l - wanted.lightness[i], 2);
        seen += share * std::pow(eye.miss(l, wanted.lightness[i]), 2);
    }
    return {std::sqrt(plain), std::sqrt(seen)};
}

}  // namespace fogproof::choose
