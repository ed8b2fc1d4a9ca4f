// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/bleach/bleach.hpp"

#include <algorithm>
#include <boost/math/special_functions/lambert_w.hpp>
#include <cmath>
#include <limits>

#include "fogproof/base/rising_map.hpp"

namespace fogproof::bleach {
namespace {

using PaceMap = RisingMap<kPaceNodes.size()>;

PaceMap pace_of(const BleachRate& rate) {
    return {kPaceNodes, rate.pace, 0};
}

RisingMap<kQuickerNodes.size()> time_map(const BleachRate& rate) {
    return {kQuickerNodes, rate.quicker, 0};
}

bool keeps_its_pace(const BleachRate& rate) {
    return rate.time_exponent == 1 && rate.quicker == BleachRate{}.quicker;
}

// Time after soaking in, and the time in which a bath that keeps its pace gives the same dose.
double paced(const BleachRate& rate, double acting) {
    if (acting <= 0) return 0;
    if (keeps_its_pace(rate)) return acting;
    return kPacedAt_s * std::exp(rate.time_exponent * time_map(rate)(std::log(acting / kPacedAt_s)));
}
double acting(const BleachRate& rate, double paced) {
    if (keeps_its_pace(rate)) return paced;
    return kPacedAt_s * std::exp(time_map(rate).inverse(std::log(paced / kPacedAt_s) / rate.time_exponent));
}

// Working strength that BleachRate::per_second speaks of: 100 g/L diluted 1+50.
constexpr double kReference_g_l = 100.0 / 51.0;

// Dose per second once the bath has soaked in.
double dose_per_second(const BleachRate& rate, const BleachBath& bath) {
    return rate.per_second * std::pow(working_strength_g_l(bath) / kReference_g_l, rate.dilution_exponent) *
           std::exp(rate.per_kelvin * (bath.temperature_c - 20));
}

// (u^(1-m) - 1) / (1-m) for u = e^w; ln u for m = 1.
double slow_part(double w, double order) {
    const double rest = 1 - order;
    return std::abs(rest) < 1e-9 ? w : std::expm1(rest * w) / rest;
}

// The w = ln(A1/K) with e^w + slow_part(w) a dose below its value at `from`; -infinity where all is gone.
double log_left(double from, double dose, double order, double guess) {
    constexpr double kNothing = -60, kLongestStep = 2, kClose = 1e-13;
    const double wanted = std::exp(from) + slow_part(from, order) - dose;
    const auto beyond = [&](double w) { return std::exp(w) + slow_part(w, order) - wanted; };
    if (beyond(kNothing) >= 0) return -std::numeric_limits<double>::infinity();
    double low = kNothing, high = from, w = std::clamp(guess, low, high);
    for (int step = 0; step < 200; ++step) {
        const double miss = beyond(w);
        (miss > 0 ? high : low) = w;
        const double newton = miss / (std::exp(w) + std::exp((1 - order) * w));
        double next = w - std::clamp(newton, -kLongestStep, kLongestStep);
        if (!(next >= low && next <= high)) next = (low + high) / 2;
        if (std::abs(next - w) < kClose * (1 + std::abs(w))) return next;
        w = next;
    }
    return w;
}

}  // namespace

double working_strength_g_l(const BleachBath& bath) {
    return bath.ferricyanide_g_l / (1 + bath.parts);
}

double bleach_dose(const BleachRate& rate, const BleachBath& bath, Seconds time) {
    return dose_per_second(rate, bath) * paced(rate, time.value - rate.soak_s);
}

Seconds bleach_time(const BleachRate& rate, const BleachBath& bath, double dose) {
    if (dose <= 0) return {0};
    return {rate.soak_s + acting(rate, dose / dose_per_second(rate, bath))};
}

double lambert_w_of_exp(double log_argument) {
    // Boost takes e^log_argument itself, which is a double only within these bounds.
    if (log_argument < -700) return std::exp(log_argument);
    if (log_argument < 700) return boost::math::lambert_w0(std::exp(log_argument));
    // Newton on w + ln w = L; from w = L - ln L it converges to rounding within three steps for L >= 700.
    double w = log_argument - std::log(log_argument);
    for (int step = 0; step < 4; ++step) w *= (1 + log_argument - std::log(w)) / (1 + w);
    return w;
}

BleachedSilver bleached(DevelopedSilver developed, double starvation, double dose, double order) {
    const double a = developed.density.value;
    if (a <= 0 || dose <= 0) return {developed.density, {0}};
    // As K falls the law tends to max(A - x, 0); below this the difference is lost in rounding.
    const double k = std::max(starvation, 1e-9);
    double left = k * lambert_w_of_exp(std::log(a / k) + (a - dose) / k);
    if (order != 1) left = k * std::exp(log_left(std::log(a / k), dose / k, order, std::log(left / k)));
    const double kept = std::clamp(left, 0.0, a);
    return {{kept}, {a - kept}};
}

BleachedSilver bleached(DevelopedSilver developed, const BleachRate& rate, double dose) {
    if (rate.pace == BleachRate{}.pace) return bleached(developed, rate.starvation, dose, rate.order);
    const double a = developed.density.value;
    if (a <= 0 || dose <= 0) return {developed.density, {0}};
    const PaceMap map = pace_of(rate);
    const double left = bleached({{map(a)}}, rate.starvation, dose, rate.order).left.value;
    const double kept = std::clamp(map.inverse(left), 0.0, a);
    return {{kept}, {a - kept}};
}

double dose_between(LayerDensity from, LayerDensity to, const BleachRate& rate) {
    const PaceMap map = pace_of(rate);
    return dose_between({map(from.value)}, {map(to.value)}, rate.starvation, rate.order);
}

double dose_between(LayerDensity from, LayerDensity to, double starvation, double order) {
    if (from <= to) return 0;
    if (to.value <= 0 && order >= 1) return std::numeric_limits<double>::infinity();
    const double k = std::max(starvation, 1e-9);
    const double end = to.value > 0 ? slow_part(std::log(to.value / k), order) : -1 / (1 - order);
    return from.value - to.value + k * (slow_part(std::log(from.value / k), order) - end);
}

}  // namespace fogproof::bleach
