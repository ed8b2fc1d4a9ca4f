// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/unknown_light.hpp"

#include <cmath>
#include <limits>
#include <map>
#include <string>
#include <tuple>
#include <utility>

#include "fit/likeness.hpp"

namespace fogproof::fit {
namespace {

constexpr double kLightReach = 3, kLightApart = 0.25;  // log10, where nothing is known
constexpr double kLightStep = 1e-3, kLightSettled = 1e-9;
constexpr int kLightSteps = 40, kLightHalvings = 8;
// D^2 by log10^2: where all is black or nothing is, any light will do, and the nearest is taken.
constexpr double kAnyLight = 1e-5;

double light_squares(double more, std::span<const double> there, std::span<const double> read) {
    double sum = kAnyLight * more * more;
    for (std::size_t i = 0; i < read.size(); ++i) sum += std::pow(there[i] - read[i], 2);
    return sum;
}

}  // namespace

std::vector<std::vector<std::size_t>> unknown_exposures(std::span<const Reading> readings,
                                                        std::span<const TreatedPatch> patches) {
    constexpr double kNoFilter = -100;
    std::map<std::tuple<std::string, double, double, double>, std::vector<std::size_t>> exposures;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const TreatedPatch& p = patches[i];
        if (exposure_guessed(readings[i]) && p.develop_s > 0)
            exposures[{sheet_of(readings[i].strip), p.filter.value_or(kNoFilter), p.restrainer_ml_l,
                       p.develop_s}]
                .push_back(i);
    }
    std::vector<std::vector<std::size_t>> all;
    for (auto& [key, rows] : exposures) all.push_back(std::move(rows));
    return all;
}

// Gauss and Newton's way.
double closest_light(std::span<const double> read,
                     const std::function<std::vector<double>(double)>& densities,
                     std::optional<double> from) {
    double at = from.value_or(0);
    if (!from) {
        double least = std::numeric_limits<double>::infinity();
        for (double more = -kLightReach; more <= kLightReach; more += kLightApart)
            if (const double sum = light_squares(more, densities(more), read); sum < least)
                least = sum, at = more;
    }
    auto here = densities(at);
    for (int step = 0; step < kLightSteps; ++step) {
        const auto less = densities(at - kLightStep), more = densities(at + kLightStep);
        double slope = kAnyLight * at, curvature = kAnyLight;
        for (std::size_t i = 0; i < read.size(); ++i) {
            const double rise = (more[i] - less[i]) / (2 * kLightStep);
            slope += rise * (here[i] - read[i]);
            curvature += rise * rise;
        }
        double by = -slope / curvature;
        const double before = light_squares(at, here, read);
        auto there = densities(at + by);
        for (int half = 0; half < kLightHalvings && light_squares(at + by, there, read) > before; ++half) {
            by /= 2;
            there = densities(at + by);
        }
        if (light_squares(at + by, there, read) > before) break;
        at += by;
        here = std::move(there);
        if (std::abs(by) < kLightSettled) break;
    }
    return at;
}

}  // namespace fogproof::fit
