// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/departure_words.hpp"

#include <cmath>

#include "base/words.hpp"
#include "pack/departure_text.hpp"

namespace fogproof::report {

std::string departure_words(const Pack& pack) {
    const DepartureSize size = departure_size(pack);
    return "this paper departs from the laws: its curve by up to " + fixed(size.log_exposure, 2) +
           " log10 of light, its bleach by up to " + fixed(100 * size.bleach_share, 0) + " % of its time";
}

nlohmann::ordered_json departure_json(const Pack& pack) {
    const DepartureSize size = departure_size(pack);
    const auto kept = [](double value) { return std::round(value * 1e4) / 1e4; };
    return {{"log_exposure", kept(size.log_exposure)}, {"bleach_share", kept(size.bleach_share)}};
}

}  // namespace fogproof::report
