// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/emulsion/paper_numbers.hpp"

#include <array>
#include <boost/math/tools/roots.hpp>
#include <cmath>

namespace fogproof::emulsion {
namespace {

constexpr double kDarkest = -6, kBrightest = 6;  // log exposures searched

std::optional<LogExposure> exposure_for(const PaperCurve& curve, double density) {
    const auto miss = [&](double log_h) { return curve({log_h}).value - density; };
    const double low = miss(kDarkest), high = miss(kBrightest);
    if (low > 0 || high < 0) return std::nullopt;
    boost::math::tools::eps_tolerance<double> close(40);
    std::uintmax_t rounds = 100;
    const auto [a, b] =
        boost::math::tools::toms748_solve(miss, kDarkest, kBrightest, low, high, close, rounds);
    return LogExposure{(a + b) / 2};
}

}  // namespace

std::optional<PaperNumbers> paper_numbers(const PaperCurve& curve, PrintDensity minimum,
                                          PrintDensity maximum) {
    const double net = maximum.value - minimum.value;
    if (kIsoShoulder * net <= kIsoSpeed) return std::nullopt;
    const auto toe = exposure_for(curve, minimum.value + kIsoToe);
    const auto speed = exposure_for(curve, minimum.value + kIsoSpeed);
    const auto shoulder = exposure_for(curve, minimum.value + kIsoShoulder * net);
    if (!toe || !speed || !shoulder) return std::nullopt;
    return PaperNumbers{*toe, *speed, *shoulder, 100 * (shoulder->value - toe->value)};
}

int rounded_iso_speed(double exposure_lux_s) {
    // One decade of the third-stop series; the next decade repeats it tenfold.
    constexpr std::array kSeries{100, 125, 160, 200, 250, 320, 400, 500, 640, 800};
    const double speed = 1000 / exposure_lux_s;
    const auto thirds = std::lround(10 * std::log10(speed));
    const auto decade = long(std::floor(double(thirds) / 10));
    return int(std::lround(kSeries[std::size_t(thirds - 10 * decade)] * std::pow(10.0, double(decade) - 2)));
}

}  // namespace fogproof::emulsion
