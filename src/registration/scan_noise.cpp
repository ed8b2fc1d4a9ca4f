// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/scan_noise.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <vector>

#include "base/quantile.hpp"

namespace fogproof::registration {
namespace {

constexpr std::size_t kFewestPairs = 200;
// A step of density between two pixels that is none: far less than one code of 65535.
constexpr double kPerfectlyEven = 1e-6;
// Of a scan without clear film around the frame: a pixel's light at full scale is off by a part of so much
// (standard deviation), as of ten thousand counted electrons, and by the root of that at less light.
// Judgement, on the safe side: scanners of film count more.
constexpr double kCounted = 0.01;
// Means of so many pixels each way hold what a JPEG leaves of them. Judgement.
constexpr double kCoarseMean = 2.5;

// Of neighbouring pixels of the clear film around the frame. A pixel of the scan's rim and two at the
// picture's edge are left out.
std::vector<double> clear_film_steps(const SmallNegative& negative, const FilmEdges& edges) {
    const int w = negative.width, h = negative.height;
    std::vector<double> steps;
    const auto strip = [&](int left, int top, int right, int bottom, int dx, int dy) {
        for (int y = top; y < bottom - dy; ++y)
            for (int x = left; x < right - dx; ++x) {
                const auto at = [&](int u, int v) {
                    return negative.density[std::size_t(v) * std::size_t(w) + std::size_t(u)].value;
                };
                steps.push_back(std::abs(at(x + dx, y + dy) - at(x, y)));
            }
    };
    const int left = int(edges.left * w) - 2, right = int(edges.right * w) + 3, top = int(edges.top * h) - 2,
              bottom = int(edges.bottom * h) + 3;
    strip(1, 1, w - 1, top, 1, 0), strip(1, bottom, w - 1, h - 1, 1, 0);
    strip(1, 1, left, h - 1, 0, 1), strip(right, 1, w - 1, h - 1, 0, 1);
    return steps;
}

// Correlation of neighbouring pixels that are means over so many pixels of noise each, cut at any fraction of
// one: the pixel that is cut counts a and 1 - a in them, and a (1 - a) is a sixth in the mean.
double shared(double mean_of) {
    constexpr double kShared = 1.0 / 6;
    return kShared / (mean_of - 2 * kShared);
}

}  // namespace

double ScanNoise::at(double density) const {
    return variance * std::pow(10.0, growth * density);
}

std::optional<ScanNoise> scan_noise(const SmallNegative& negative, const NegativeView& view) {
    const double mean_of =
        std::max(1.0, double(view.scan_pixels) / std::max(negative.width, negative.height));
    const double neighbours = mean_of > 1 ? shared(mean_of) : 0;
    std::vector<double> steps = clear_film_steps(negative, view.edges);
    if (steps.size() >= kFewestPairs) {
        const double middle = median(std::move(steps));
        if (!(middle > kPerfectlyEven)) return std::nullopt;
        const double size = kMadToSigma * middle / std::numbers::sqrt2;
        // It is no larger in light where the film is denser, so this is at most what it comes to there.
        return ScanNoise{size * size / (1 - neighbours), 2, neighbours};
    }
    if (view.is_coarsely_coded) {
        if (mean_of < kCoarseMean) return std::nullopt;
        return ScanNoise{HUGE_VAL, 0, neighbours};
    }
    // As much of it as the mean of several pixels leaves.
    const double size = kCounted / std::numbers::ln10;
    return ScanNoise{size * size / std::pow(mean_of, 2), 1, neighbours};
}

}  // namespace fogproof::registration
