// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/shown.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "pack/grade_words.hpp"
#include "pack/schema.hpp"

namespace fogproof::report {

std::string shown(Seconds time) {
    return two_digits(time.value) + " s";
}

std::string shown_within(double seconds, const Interval& known) {
    const double half = std::min(known.high - known.value, known.value - known.low);
    const std::string shown_so = two_digits(seconds);
    const auto point = shown_so.find('.');
    if (point == std::string::npos) return shown_so + " s";
    const double unit = std::pow(10.0, -double(shown_so.size() - point - 1));
    if (unit >= half / 10) return shown_so + " s";
    const int decimals = std::max(0, int(std::floor(-std::log10(half / 10))));
    return fixed(seconds, decimals) + " s";
}

std::string shown_seconds(const Interval& known) {
    if (known.value <= 0) return "none";
    return shown_within(known.value, known) + " (" + shown_within(known.low, known) + " to " +
           shown_within(known.high, known) + ")";
}

std::string shown_number(double figure, const Interval& known) {
    constexpr int kMost = 6;
    const double up = known.high - known.value, down = known.value - known.low;
    const double half = std::min(up > 0 ? up : down, down > 0 ? down : up);
    if (!(half > 0)) return decimal(figure, 4);
    return fixed(figure, std::clamp(1 - int(std::floor(std::log10(half))), 0, kMost));
}

std::string shown(PrintDensity density) {
    return fixed(density.value, 2);
}

std::string shown_distance(double lightness_error) {
    constexpr double kWhole = 9.95;
    return fixed(lightness_error, lightness_error < kWhole ? 1 : 0);
}

std::string shown_distance(const Interval& lightness_error) {
    return shown_distance(lightness_error.value) + " L* (" + shown_distance(lightness_error.low) + " to " +
           shown_distance(lightness_error.high) + ")";
}

std::string readings_counted(std::size_t count) {
    return std::to_string(count) + (count == 1 ? " reading" : " readings");
}

std::string shown(Origin origin) {
    return origin == Origin::nudged ? "partly measured" : origin_words()[std::size_t(origin)];
}

std::string restrainer_words(RestrainerAgent agent) {
    switch (agent) {
        case RestrainerAgent::bromide:
            return "potassium bromide";
        case RestrainerAgent::benzotriazole:
            return "benzotriazole";
        case RestrainerAgent::unknown:
            break;
    }
    return "agent not named, taken as potassium bromide";
}

std::string shown_percent(double share) {
    if (share <= 0) return "0 %";
    return share < 0.005 ? "under 1 %" : fixed(100 * share, 0) + " %";
}

std::string shown_black_stops(double stops) {
    return "full black " + std::string(stops < 0 ? "" : "+") + fixed(stops, 1) + " stop";
}

std::string shown_exposure(const Proof& proof, bool anchored) {
    if (!anchored) return shown_black_stops(proof.black_stops);
    if (proof.exposures.size() == 1) return shown(proof.exposures.front());
    std::string text;
    for (std::size_t i = 0; i < proof.exposures.size(); ++i) {
        text += (i == 0 ? "" : " + ") + shown(proof.exposures[i]);
        if (const auto grade = proof.recipe.exposures[i].grade) text += " at " + grade_name(*grade);
    }
    return text;
}

std::string shown_bleach(const Proof& proof) {
    if (proof.steps.finishing.bleach_dose <= 0)
        return proof.bleach.value > 0 ? "bleach " + shown(proof.bleach) : "no bleach";
    return "bleach " + shown(proof.bleach);
}

}  // namespace fogproof::report
