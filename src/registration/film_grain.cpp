// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/film_grain.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "base/quantile.hpp"
#include "registration/negative_image.hpp"
#include "registration/tone_gain.hpp"

namespace fogproof::registration {
namespace {

// What lies between two blurs (standard deviations, pixels) counts: grain is strong there against a picture,
// and finer detail hardly passes a scanner's lens or a JPEG. Judgement.
constexpr double kFinest = 0.6, kCoarser = 1.5;
constexpr int kGrainBlock = 16;
// The most even blocks are asked for grain: as few of them as tell it so well, at most so many of all. The
// others are the picture, but for those between. Judgement.
constexpr double kTold = 0.05, kFewestAsked = 0.01, kMostAsked = 0.08, kPictureFrom = 0.4;
// Detail of so many times the variance of the evenest blocks' is the picture's; a still stronger one has
// tones of its own. Judgement.
constexpr double kLeastPicture = 4, kMostPicture = 100;
// Pixels of a block whose fine detail tells nothing of one another. Judgement.
constexpr double kIndependent = 25;
constexpr std::size_t kFewestEven = 8;
// The variance of grain grows as density (Nutting's law), above that of base and fog.
constexpr double kFogGrain = 0.1;
// A block weighs by what its print leaves unexplained, but by no less than so much of the median.
constexpr double kLeastLeft = 0.1;

// Prints of the negative show most of its grain. How much scatters by a blur that is not quite known, and
// more on scans of 8 bit, whose JPEG wipes out what is faint: by this size (a part of a code) over the
// grain's. So many deviations less is another exposure's. Tried on prints of the negative and of its
// neighbours.
constexpr double kGrainShown = 0.95, kGrainScatter = 0.11, kCoarseScatter = 0.13, kFaint = 0.04 / 255,
                 kGrainDeviations = 2.2;
// Rms values (lightness, 0 to 1) below which no scan shows grain; on prints that were tried it was 1e-4 and
// more.
constexpr double kFaintestGrain = 1e-5;
// Whatever the print's scan and its coding did, so much of the grain is left. Another exposure's print shows
// next to nothing of it. Tried likewise.
constexpr double kGrainLeft = 0.3, kLeftDeviations = 2.5;
// Grain of film is no coarser: its density's standard deviation, of a pixel at density 1. Twice that of
// the fastest films at 24 micrometres a pixel (Selwyn's law; their granularity from memory).
constexpr double kCoarsestGrain = 0.06;
// Of the even blocks that are asked, the strongest grain over that of one block in eight from the evenest. It
// is 1.05 to 1.6 where there is film grain, and more where what is even is the picture alone. Judgement.
constexpr double kMostUnlike = 1.7;
constexpr std::size_t kOneIn = 8;

struct Detail {
    double expected = 0, together = 0;    ///< mean squares: of the negative's, of it times the print's
    double left = 0;                      ///< of their difference
    double film = 0, film_and_print = 0;  ///< mean squares: of the film's detail, of it times the print's
    double finest = 0;                    ///< mean square of the film's detail that is finer than that
    double density = 0, tone = 0;         ///< means: of the film, of the print's lightness

    /// The variance of detail that grain of this density has is in proportion to it.
    [[nodiscard]] double over_grain() const { return film / (std::max(0.0, density) + kFogGrain); }
};

GreyImage fine_of(const GreyImage& image) {
    GreyImage fine = blurred(image, kFinest);
    const GreyImage coarse = blurred(fine, std::sqrt(kCoarser * kCoarser - kFinest * kFinest));
    for (std::size_t i = 0; i < fine.values.size(); ++i) fine.values[i] -= coarse.values[i];
    return fine;
}

// What is finer than that is noise for the most part: a lens has blurred grain, but not the scanner's noise.
GreyImage finest_of(const GreyImage& image) {
    GreyImage finest = blurred(image, kFinest);
    for (std::size_t i = 0; i < finest.values.size(); ++i)
        finest.values[i] = image.values[i] - finest.values[i];
    return finest;
}

// What is left of noise of variance 1 of a film's scan.
struct NoiseLeft {
    double fine, finest;

    /// `blur` of the print's scan against it.
    NoiseLeft(double blur, const ScanNoise& noise) {
        constexpr int kSide = 64, kMiddle = kSide / 2;
        GreyImage one(kSide, kSide);
        // A pixel and its neighbour that have each other's noise in part.
        const double turn = std::asin(2 * noise.neighbours) / 2, own = std::cos(turn), next = std::sin(turn);
        one.at(kMiddle, kMiddle) = float(own * own), one.at(kMiddle + 1, kMiddle + 1) = float(next * next);
        one.at(kMiddle + 1, kMiddle) = one.at(kMiddle, kMiddle + 1) = float(own * next);
        const auto squares = [](const GreyImage& image) {
            double sum = 0;
            for (const float value : image.values) sum += double(value) * double(value);
            return sum;
        };
        fine = squares(fine_of(blurred(one, blur))), finest = squares(finest_of(one));
    }
};

// Of a block: detail that one way of knowing the print's slope expects, and that times the print's.
struct Expected {
    double square = 0, together = 0, left = 0;
};

struct Slope {
    double value = 0, error = 1;
};

// By how much the print's detail rises with what is expected.
Slope slope_of(std::span<const Expected> blocks, double least_left) {
    double together = 0, expected = 0, squared = 0;
    const auto weight = [&](const Expected& block) { return 1 / std::max(block.left, least_left); };
    for (const Expected& block : blocks)
        together += weight(block) * block.together, expected += weight(block) * block.square;
    if (!(expected > 0)) return {};
    const double slope = together / expected;
    for (const Expected& block : blocks) {
        const double miss = weight(block) * (block.together - slope * block.square);
        squared += miss * miss;
    }
    return {slope, std::sqrt(squared) / expected};
}

// Blocks of the print within the frame's part, the evenest first.
std::vector<Detail> details(const GreyImage& expected, const GreyImage& density, double blur,
                            const SeenFrame& seen, const FramePart& part) {
    const GreyImage film = fine_of(blurred(density, blur)), finest = finest_of(density),
                    ours = fine_of(expected), theirs = fine_of(seen.value);
    std::vector<Detail> all;
    for (int top = part.top; top + kGrainBlock <= part.bottom; top += kGrainBlock)
        for (int left = part.left; left + kGrainBlock <= part.right; left += kGrainBlock) {
            Detail sum;
            bool is_inside = true;
            for (int y = top; y < top + kGrainBlock; ++y)
                for (int x = left; x < left + kGrainBlock; ++x) {
                    const double e = double(ours.at(x, y)), s = double(theirs.at(x, y)),
                                 f = double(film.at(x, y)), finer = double(finest.at(x, y));
                    is_inside = is_inside &&
                                seen.inside[std::size_t(y) * std::size_t(expected.width) + std::size_t(x)];
                    sum.expected += e * e, sum.together += e * s, sum.left += (s - e) * (s - e);
                    sum.film += f * f, sum.film_and_print += f * s, sum.finest += finer * finer;
                    sum.density += double(density.at(x, y)), sum.tone += double(seen.value.at(x, y));
                }
            constexpr double kPixels = kGrainBlock * kGrainBlock;
            for (double* each : {&sum.expected, &sum.together, &sum.left, &sum.film, &sum.film_and_print,
                                 &sum.finest, &sum.density, &sum.tone})
                *each /= kPixels;
            if (is_inside && sum.film > 0) all.push_back(sum);
        }
    std::ranges::sort(all, {}, &Detail::over_grain);
    return all;
}

std::size_t part_of(std::span<const Detail> blocks, double share) {
    return std::size_t(share * double(blocks.size()));
}

// The print's detail where slopes are those of the tone curve, and a blur that is not quite known makes all
// of it weaker or stronger.
std::vector<Expected> by_tone_curve(std::span<const Detail> blocks, double least_left) {
    std::vector<Expected> found;
    for (const Detail& block : blocks) found.push_back({block.expected, block.together, block.left});
    const Slope picture = slope_of(std::span(found).subspan(part_of(blocks, kPictureFrom)), least_left);
    if (!(picture.value > 0)) return {};
    for (Expected& block : found)
        block.square *= picture.value * picture.value, block.together *= picture.value;
    return found;
}

// The print's detail where slopes are those of the picture at the same tones of the print.
std::vector<Expected> by_tone_of_print(std::span<const Detail> blocks, double least_left) {
    // Of the middle one of the evenest.
    const double grain = blocks[std::max(kFewestEven / 2, part_of(blocks, kFewestAsked)) / 2].over_grain();
    std::vector<GainSeen> picture;
    for (const Detail& block : blocks)
        if (block.over_grain() > kLeastPicture * grain && block.over_grain() < kMostPicture * grain)
            picture.push_back({block.tone, block.film_and_print / block.film,
                               std::max(block.left, least_left) / block.film / kIndependent});
    const auto gain = ToneGain::of(std::move(picture));
    if (!gain) return {};
    std::vector<Expected> found;
    for (const Detail& block : blocks.first(std::max(kFewestEven, part_of(blocks, kMostAsked)))) {
        const double here = gain->at(block.tone);
        found.push_back({here * here * block.film, here * block.film_and_print, block.left});
    }
    return found;
}

// By how many deviations even the least of the grain is missing.
double least_missing(const GrainShare& grain) {
    return (kGrainLeft * grain.expected - grain.share) / grain.error;
}

// How much of the grain of the evenest blocks is on the print.
GrainShown shown(std::span<const Detail> blocks, std::span<const Expected> expected, double least_left,
                 const ScanNoise& noise, double blur) {
    const NoiseLeft left(blur, noise);
    const double coarsest = kCoarsestGrain * kCoarsestGrain * left.fine;
    std::optional<GrainShown> found;
    GrainShare least;
    for (double asked = kFewestAsked; asked <= kMostAsked; asked *= 2) {
        const auto evenest = expected.first(std::max(kFewestEven, part_of(blocks, asked)));
        const Slope grain = slope_of(evenest, least_left);
        // The scan's noise is in the negative's detail and not on the print. It is at most as much as was
        // measured or assumed, and at most all that is in the finest detail.
        double all_of_it = 0, as_known = 0, as_finest = 0, squares = 0;
        for (std::size_t i = 0; i < evenest.size(); ++i) {
            const double weight = evenest[i].square / std::max(evenest[i].left, least_left),
                         of_film = left.fine / blocks[i].film;
            as_known += weight * std::min(1.0, noise.at(blocks[i].density) * of_film);
            as_finest += weight * blocks[i].finest / left.finest * of_film;
            all_of_it += weight, squares += evenest[i].square;
        }
        const double told = all_of_it > 0 ? 1 - std::min(as_known, as_finest) / all_of_it : 1;
        const GrainShare here{grain.value, grain.error, told};
        if (asked == kFewestAsked || least_missing(here) > least_missing(least)) least = here;
        if (found && found->error <= kTold) continue;
        const std::size_t count = evenest.size();
        const bool is_grain =
            blocks[count / 2].over_grain() < coarsest &&
            blocks[count - 1].over_grain() < kMostUnlike * blocks[count / kOneIn].over_grain();
        found = GrainShown{here, {}, std::sqrt(squares / double(count)), is_grain};
    }
    found->least = least;
    return *found;
}

}  // namespace

GrainShown grain_shown(const GreyImage& expected, double blur, const SmallNegative& negative,
                       const ScanNoise& noise, const SeenFrame& seen, const FramePart& part) {
    const std::vector<Detail> blocks = details(expected, densities(negative), blur, seen, part);
    if (blocks.size() < 4 * kFewestEven) return {};
    std::vector<double> left;
    for (const Detail& block : blocks) left.push_back(block.left);
    const double least_left = kLeastLeft * median(std::move(left));
    const auto by_curve = by_tone_curve(blocks, least_left);
    if (by_curve.empty()) return {};
    const GrainShown one = shown(blocks, by_curve, least_left, noise, blur);
    const auto by_print = by_tone_of_print(blocks, least_left);
    if (by_print.empty()) return one;
    // Either slope may be wrong: the curve's, which is better known, where the print was burnt, the picture's
    // where it has none of a tone. What is another negative's grain is on the print by neither.
    const GrainShown other = shown(blocks, by_print, least_left, noise, blur);
    return other.share - other.error > one.share + one.error ? other : one;
}

namespace {

// Sums over the pieces of a print.
struct AllGrain {
    double missing = 0, squared_errors = 0, scatters = 0;  ///< of what is expected
    double left = 0, least = 0, told = 0;  ///< what is there, what is there at least, how surely

    [[nodiscard]] bool is_other() const {
        // Errors are each piece's own, the blur that is not quite known is one for all.
        return missing > kGrainDeviations * std::hypot(std::sqrt(squared_errors), scatters) ||
               least - left > kLeftDeviations * std::sqrt(told);
    }
};

AllGrain all_grain(std::span<const GrainShown> pieces, bool is_coarsely_coded) {
    AllGrain sum;
    for (const GrainShown& grain : pieces) {
        // A piece that is black or white where it is even says nothing, and its share is one of next to nil.
        if (grain.size < kFaintestGrain) continue;
        const double scatter =
            is_coarsely_coded ? std::hypot(kCoarseScatter, kFaint / grain.size) : kGrainScatter;
        const double squared = grain.error * grain.error, weight = 1 / (squared + scatter * scatter);
        // More than there is on film makes up for nothing that another piece lacks.
        sum.missing += weight * std::max(0.0, kGrainShown * grain.expected - grain.share);
        sum.squared_errors += weight * weight * squared, sum.scatters += weight * scatter;
        const double certain = 1 / (grain.least.error * grain.least.error);
        sum.left += certain * std::min(grain.least.share, grain.least.expected);
        sum.least += certain * kGrainLeft * grain.least.expected, sum.told += certain;
    }
    return sum;
}

}  // namespace

bool is_other_grain(std::span<const GrainShown> pieces, bool is_coarsely_coded) {
    return all_grain(pieces, is_coarsely_coded).is_other();
}

bool is_own_grain(std::span<const GrainShown> pieces, bool is_coarsely_coded) {
    const AllGrain seen = all_grain(pieces, is_coarsely_coded);
    std::vector<GrainShown> without(pieces.begin(), pieces.end());
    for (GrainShown& grain : without) grain.share = grain.least.share = 0;
    return std::ranges::all_of(pieces, &GrainShown::is_grain) && !seen.is_other() &&
           seen.left > kLeftDeviations * std::sqrt(seen.told) &&
           all_grain(without, is_coarsely_coded).is_other();
}

}  // namespace fogproof::registration
