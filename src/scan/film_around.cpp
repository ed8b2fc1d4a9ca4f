// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/film_around.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "system/threads.hpp"

namespace fogproof::scan {
namespace {

// Judgement, all of them.
constexpr double kRim = 0.015;      // of the shorter side: no film reaches so far out under a holder
constexpr double kOneTone = 0.15;   // density; what of the rim belongs to its holder
constexpr double kMostlyRim = 0.5;  // of the rim
constexpr double kInside = 2;       // pixels of the small copy

enum class InvertedIn { light, codes };

SmallScan inverted(const SmallScan& scan, InvertedIn way) {
    SmallScan made{scan.width, scan.height, {}};
    made.density.reserve(scan.density.size());
    constexpr double kEye = 2.2, kFaintest = 5;  // D
    const double gamma = way == InvertedIn::light ? 1 : kEye;
    for (const float density : scan.density) {
        const double code = std::min(std::exp(-double(density) * std::numbers::ln10 / gamma), 1.0);
        made.density.push_back(float(std::min(-gamma * std::log10(1 - code), kFaintest)));
    }
    return made;
}

std::vector<float> rim_of(const SmallScan& scan) {
    std::vector<float> rim;
    const int deep = std::max(1, int(kRim * std::min(scan.width, scan.height)));
    for (int y = 0; y < scan.height; ++y)
        for (int x = 0; x < scan.width; ++x)
            if (std::min({x, y, scan.width - 1 - x, scan.height - 1 - y}) < deep)
                rim.push_back(scan.at(x, y));
    std::ranges::sort(rim);
    return rim;
}

/// Film seen all around in one scan and a picture inside it, where the other scan shows less or something
/// larger: a holder around the film looks like clear film in the inverted scan.
bool lies_inside(const FilmSurvey& one, const FilmSurvey& other) {
    if (!one.inset || !one.clear) return false;
    if (!other.inset) return true;
    int deeper = 0;
    for (const Side side : kSides) deeper += (*one.inset)[side] >= (*other.inset)[side] + kInside;
    return deeper >= 3;
}

}  // namespace

FilmAround film_around(const SmallScan& scan, const FilmSurvey& found) {
    FilmAround around;
    if (std::min(scan.width, scan.height) < 16) return around;
    const std::vector<float> rim = rim_of(scan);
    const double densest = rim[rim.size() * 9 / 10];
    const auto first = std::ranges::lower_bound(rim, float(densest - kOneTone));
    const bool is_one_tone = double(rim.end() - first) > kMostlyRim * double(rim.size());
    const double thinnest = brightest_density(scan);
    if (is_one_tone) around.rim = NegativeDensity{densest - thinnest};
    const bool is_white = rim[rim.size() / 2] <= thinnest + kClearTolerance;
    // Without a white rim a dark one may be a holder that lies directly on the picture.
    if (is_white || found.inset || !is_one_tone || densest - thinnest < 1.6) {
        std::array<bool, 2> inside{};
        system::in_parallel(inside.size(), [&](std::size_t way) {
            inside[way] = lies_inside(surveyed(inverted(scan, InvertedIn(way))), found);
        });
        around.is_inverted = inside[0] || inside[1];
    }
    around.is_negative = found.clear && found.inset && !around.is_inverted;
    return around;
}

}  // namespace fogproof::scan
