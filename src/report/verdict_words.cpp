// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/verdict_words.hpp"

#include <array>

#include "base/words.hpp"

namespace fogproof::report {
namespace {

std::string from_to(const Interval& before, const Interval& after) {
    return "from " + fixed(before.value, 2) + " to " + fixed(after.value, 2);
}

}  // namespace

std::string answer_words(Answer answer) {
    static constexpr std::array kWords{"no", "unlikely", "likely", "yes"};
    return kWords.at(std::size_t(answer));
}

std::string verdict_words(const PackSummary& summary) {
    const PackVerdict verdict = pack_verdict(summary);
    const std::string sheet =
        verdict.is_cleared ? "Bleach clears the white " + from_to(summary.blank.density, verdict.white) +
                                 ". The black falls " + from_to(summary.black, verdict.black) + ".\n"
                           : "The paper holds no fog: white " + fixed(verdict.white.value, 2) + ", black " +
                                 fixed(verdict.black.value, 2) + ".\n";
    return sheet + "Full-scale prints (white up to " + fixed(kFullScaleWhite, 2) + ", black " +
           fixed(kFullScaleRange, 1) + " above it): " + answer_words(verdict.full_scale) + ". Deep blacks (" +
           fixed(kDeepBlack, 1) + " or more): " + answer_words(verdict.deep_blacks) + ".\n";
}

}  // namespace fogproof::report
