// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/sheet_words.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "report/shown.hpp"

namespace fogproof::report {

std::string roughly(const Interval& seconds) {
    return shown_seconds(seconds);
}

std::string millilitres(double ml) {
    return fixed(ml, ml > 0 && ml < 10 ? 1 : 0) + " ml";
}

std::string milligrams(double grams) {
    const double mg = 1000 * grams;
    if (mg < 1) return mg > 0 ? "under 1 mg" : "0 mg";
    const double unit = std::max(1.0, std::pow(10.0, std::floor(std::log10(mg)) - 1));
    return fixed(std::round(mg / unit) * unit, 0) + " mg";
}

std::string why_no_bleach(bool is_decided) {
    return is_decided ? "as you decided" : "it would gain less than it costs";
}

std::string minutes(double seconds) {
    return fixed(5 * std::ceil(seconds / 300 - 1e-9), 0) + " min";
}

}  // namespace fogproof::report
