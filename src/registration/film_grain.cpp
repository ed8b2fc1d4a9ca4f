// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/film_grain.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>
#include <vector>

namespace fogproof::registration {
namespace {

// What lies between two blurs (standard deviations, pixels) counts: grain is strong there against a picture,
// and finer detail hardly passes a scanner's lens or a JPEG. Judgement.
constexpr double kFinest = 0.6, kCoarser = 1.5;
constexpr int kGrainBlock = 16;
// The most even blocks are asked for grain: as few of them as tell it so well, at most so many of all. The
// others are the picture, but for those between. Judgement.
constexpr double kTold = 0.12, kFewestAsked = 0.01, kMostAsked = 0.08, kPictureFrom = 0.4;
constexpr std::size_t kFewestEven = 8;
// The variance of grain grows as density (Nutting's law), above that of base and fog.
constexpr double kFogGrain = 0.1;
// A block weighs by what its print leaves unexplained, but by no less than so much of the median.
constexpr double kLeastLeft = 0.1;
constexpr std::size_t kFewestPairs = 200;
// A step of density between two pixels that is none: far less than one code of 65535.
constexpr double kPerfectlyEven = 1e-6;

struct Detail {
    double expected = 0, together = 0;  ///< mean squares: of the negative's, of it times the print's
    double left = 0;                    ///< of their difference
    double film = 0, density = 0;       ///< mean square of the film's detail, mean density
};

GreyImage fine_of(const GreyImage& image) {
    GreyImage fine = blurred(image, kFinest);
    const GreyImage coarse = blurred(fine, std::sqrt(kCoarser * kCoarser - kFinest * kFinest));
    for (std::size_t i = 0; i < fine.values.size(); ++i) fine.values[i] -= coarse.values[i];
    return fine;
}

GreyImage densities(const SmallNegative& negative) {
    GreyImage image(negative.width, negative.height);
    std::ranges::transform(negative.density, image.values.begin(),
                           [](NegativeDensity density) { return float(density.value); });
    return image;
}

// Variance that is left of white noise of variance 1 when it is blurred and then made fine.
double noise_left(double blur) {
    const auto overlap = [](double a, double b) {
        const double squared = a * a + b * b;
        return 1 / (2 * std::numbers::pi * squared);
    };
    const double sharp = std::hypot(blur, kFinest), soft = std::hypot(blur, kCoarser);
    return overlap(sharp, sharp) + overlap(soft, soft) - 2 * overlap(sharp, soft);
}

struct Slope {
    double value = 0, error = 1;
};

// By how much the print's detail rises with the negative's.
template <class Blocks>
Slope slope_of(const Blocks& blocks, double least_left) {
    double together = 0, expected = 0, squared = 0;
    const auto weight = [&](const Detail& block) { return 1 / std::max(block.left, least_left); };
    for (const Detail& block : blocks)
        together += weight(block) * block.together, expected += weight(block) * block.expected;
    if (!(expected > 0)) return {};
    const double slope = together / expected;
    for (const Detail& block : blocks) {
        const double miss = weight(block) * (block.together - slope * block.expected);
        squared += miss * miss;
    }
    return {slope, std::sqrt(squared) / expected};
}

}  // namespace

std::optional<double> clear_film_noise(const SmallNegative& negative, const FilmEdges& edges) {
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
    // A pixel of the scan's rim and two at the picture's edge are left out.
    const int left = int(edges.left * w) - 2, right = int(edges.right * w) + 3, top = int(edges.top * h) - 2,
              bottom = int(edges.bottom * h) + 3;
    strip(1, 1, w - 1, top, 1, 0), strip(1, bottom, w - 1, h - 1, 1, 0);
    strip(1, 1, left, h - 1, 0, 1), strip(right, 1, w - 1, h - 1, 0, 1);
    if (steps.size() < kFewestPairs) return std::nullopt;
    const auto middle = steps.begin() + std::ptrdiff_t(steps.size() / 2);
    std::ranges::nth_element(steps, middle);
    if (!(*middle > kPerfectlyEven)) return std::nullopt;
    constexpr double kMedianOfNormal = 0.6745;
    return *middle / kMedianOfNormal / std::numbers::sqrt2;
}

GrainShown grain_shown(const GreyImage& expected, double blur, const SmallNegative& negative, double noise,
                       const SeenFrame& seen, const FramePart& part) {
    const GreyImage density = densities(negative);
    const GreyImage film = fine_of(blurred(density, blur)), ours = fine_of(expected),
                    theirs = fine_of(seen.value);
    std::vector<Detail> all;
    for (int top = part.top; top + kGrainBlock <= part.bottom; top += kGrainBlock)
        for (int left = part.left; left + kGrainBlock <= part.right; left += kGrainBlock) {
            Detail sum;
            bool is_inside = true;
            for (int y = top; y < top + kGrainBlock; ++y)
                for (int x = left; x < left + kGrainBlock; ++x) {
                    const double e = double(ours.at(x, y)), s = double(theirs.at(x, y)),
                                 f = double(film.at(x, y));
                    is_inside = is_inside &&
                                seen.inside[std::size_t(y) * std::size_t(expected.width) + std::size_t(x)];
                    sum.expected += e * e, sum.together += e * s, sum.left += (s - e) * (s - e);
                    sum.film += f * f, sum.density += double(density.at(x, y));
                }
            constexpr double kPixels = kGrainBlock * kGrainBlock;
            for (double* each : {&sum.expected, &sum.together, &sum.left, &sum.film, &sum.density})
                *each /= kPixels;
            if (is_inside && sum.film > 0) all.push_back(sum);
        }
    if (all.size() < 4 * kFewestEven) return {};
    const auto median = all.begin() + std::ptrdiff_t(all.size() / 2);
    std::ranges::nth_element(all, median, {}, &Detail::left);
    const double least_left = kLeastLeft * median->left;
    std::ranges::sort(
        all, {}, [](const Detail& block) { return block.film / (std::max(0.0, block.density) + kFogGrain); });
    const auto part_of_all = [&](double share) { return std::size_t(share * double(all.size())); };
    const std::span<const Detail> blocks(all);
    const Slope picture = slope_of(blocks.subspan(part_of_all(kPictureFrom)), least_left);
    if (!(picture.value > 0)) return {};
    std::span<const Detail> evenest;
    Slope grain;
    for (double asked = kFewestAsked; asked <= kMostAsked; asked *= 2) {
        evenest = blocks.first(std::max(kFewestEven, part_of_all(asked)));
        grain = slope_of(evenest, least_left);
        if (grain.error < kTold * picture.value) break;
    }
    GrainShown found{grain.value / picture.value, grain.error / picture.value, 1};
    // The scan's noise is in the negative's detail and not on the print. It is no larger in light where the
    // film is denser, so this is at most what it comes to there.
    double all_of_it = 0, told = 0, squares = 0;
    for (const Detail& block : evenest) {
        const double noisy = noise * std::pow(10.0, block.density);
        const double part_of_noise = std::min(1.0, noisy * noisy * noise_left(blur) / block.film);
        const double weight = block.expected / std::max(block.left, least_left);
        all_of_it += weight, told += weight * (1 - part_of_noise), squares += block.expected;
    }
    found.size = picture.value * std::sqrt(squares / double(evenest.size()));
    if (all_of_it > 0) found.expected = told / all_of_it;
    return found;
}

}  // namespace fogproof::registration
