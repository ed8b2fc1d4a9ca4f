// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/suspicions.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "fit/fitter.hpp"

namespace fogproof::fit {
namespace {

// A strip is suspicious when its weighed squares stand out of their chance (chi squared) by so many standard
// deviations, a lone slip when they come to so many. Looking is cheap, and believing asks for more.
// Judgement.
constexpr double kSuspiciousReading = 1, kSuspiciousSlip = 9;

}  // namespace

double unit_of(const ErrorSizes& errors) {
    return std::hypot(errors.reading, errors.law * std::sqrt(3.0));
}

std::map<std::string, double> suspicions(const ErrorSizes& errors, std::span<const Reading> readings,
                                         std::span<const double> densities) {
    struct Sums {
        double sum = 0, squares = 0, count = 0;
    };
    std::map<std::string, Sums> strips;
    const double unit = unit_of(errors);
    for (std::size_t i = 0; i < readings.size(); ++i) {
        Sums& strip = strips[readings[i].strip];
        const double residual = robust((densities[i] - readings[i].density) / unit);
        strip.sum += residual, strip.squares += residual * residual, ++strip.count;
    }
    std::map<std::string, double> beyond;
    const double sheets = std::pow(errors.sheet / unit, 2);
    for (const auto& [label, strip] : strips) {
        const double squares = strip.squares - sheets * strip.sum * strip.sum / (1 + strip.count * sheets);
        const double chance = std::sqrt(2 * strip.count);
        beyond[label] =
            (squares - std::max(strip.count + kSuspiciousReading * chance, kSuspiciousSlip)) / chance;
    }
    return beyond;
}

std::vector<std::string> most_suspicious(std::vector<std::string> strips,
                                         const std::map<std::string, double>& beyond, std::size_t count) {
    const auto figure = [&](const std::string& strip) {
        const auto found = beyond.find(strip);
        return found == beyond.end() ? 0 : found->second;
    };
    std::ranges::stable_sort(strips, std::greater<>(), figure);
    strips.resize(std::min(strips.size(), count));
    return strips;
}

std::map<std::string, double> strips_rms(std::span<const Reading> readings,
                                         std::span<const double> densities) {
    std::map<std::string, double> rms, counts;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        // Halves count for their strip and for a strip that bears the sheet's name.
        const std::set<std::string> names{readings[i].strip, sheet_of(readings[i].strip)};
        for (const auto& name : names) {
            rms[name] += std::pow(densities[i] - readings[i].density, 2);
            ++counts[name];
        }
    }
    for (auto& [strip, square] : rms) square = std::sqrt(square / counts[strip]);
    return rms;
}

double strip_rms(std::span<const Reading> readings, std::span<const double> densities,
                 const std::string& strip) {
    double sum = 0, count = 0;
    for (std::size_t i = 0; i < readings.size(); ++i)
        if (is_part_of(readings[i].strip, strip)) {
            sum += std::pow(densities[i] - readings[i].density, 2);
            ++count;
        }
    return count > 0 ? std::sqrt(sum / count) : 0;
}

}  // namespace fogproof::fit
