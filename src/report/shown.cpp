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
    constexpr double kSameStops = 1.0 / 24;
    std::string two = two_digits(time.value);
    if (time.value < 1 || std::abs(std::log2(std::stod(two) / time.value)) <= kSameStops) return two + " s";
    const int whole = int(std::floor(std::log10(time.value)));
    const double unit = std::pow(10.0, whole - 2);
    return decimal(std::round(time.value / unit) * unit, std::max(0, 2 - whole)) + " s";
}

std::string shown_seconds(const Interval& known) {
    constexpr double kGuess = 100;
    if (known.value <= 0) return "none";
    const std::string likely = shown(Seconds{known.value});
    if (known.high > kGuess * known.value) return likely + " (a mere guess)";
    return likely + " (" + shown(Seconds{known.low}) + " to " + shown(Seconds{known.high}) + ")";
}

std::string shown_number(double figure, const Interval& known) {
    constexpr int kMost = 6;
    const double up = known.high - known.value, down = known.value - known.low;
    constexpr double kAtItsEnd = 1e-4;  // of the other half: no doubt, the end of its range
    const double half = std::min(up > kAtItsEnd * down ? up : down, down > kAtItsEnd * up ? down : up);
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
    return origin == Origin::partly_measured ? "partly measured" : origin_words()[std::size_t(origin)];
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

std::string shown_black_stops(const Interval& exposure_s, double stops) {
    return shown_black_stops(stops) + " (+/- " + fixed(std::log2(exposure_s.high / exposure_s.value), 1) +
           ")";
}

std::string shown_exposure(const Proof& proof, bool anchored) {
    const auto amount = [&](std::size_t i) {
        return anchored ? shown(proof.exposures[i]) : shown_black_stops(proof.own_black_stops[i]);
    };
    if (proof.exposures.size() == 1) return amount(0);
    std::string text;
    for (std::size_t i = 0; i < proof.exposures.size(); ++i) {
        text += (i == 0 ? "" : " + ") + amount(i);
        if (const auto grade = proof.recipe.exposures[i].grade) text += " at " + grade_name(*grade);
    }
    return text;
}

std::string shown_flashes(const Proof& proof) {
    std::string text;
    for (const auto& flash : proof.recipe.flashes) {
        text += ", flash " + shown(std::get<Seconds>(flash.amount));
        if (flash.grade) text += " at " + grade_name(*flash.grade);
    }
    return text;
}

std::string shown_bleach(const Proof& proof) {
    if (proof.steps.finishing.bleach_dose <= 0)
        return proof.bleach.value > 0 ? "bleach " + shown(proof.bleach) : "no bleach";
    return "bleach " + shown(proof.bleach);
}

}  // namespace fogproof::report
