// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/light_pairs.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace fogproof::scan {
namespace {

// Steps from which on two lights have shares of their own: below that a lean of the scatter changes no code.
constexpr double kLeaning = 100;
// Steps up to which lights lie so close together that no pair of them shows.
constexpr double kClose = 24;
// Codes of 8 bits that a pixel may be off on the trial prints. What prints between them and the page's tables
// are off comes on top: up to 0.4 more was seen.
constexpr double kAllowed = 0.6;

// Mean, scatter and lean are kept.
void keep(LightPairs& pairs, std::size_t at, const CellLights& lights) {
    int share = LightPairs::kShares / 2;
    if (2 * lights.deviation() >= kLeaning) {
        const double g = std::clamp(lights.skew(), -6.0, 6.0);
        share = std::clamp(int(std::lround(LightPairs::kShares * 0.5 * (1 - g / std::sqrt(4 + g * g)))), 1,
                           LightPairs::kShares - 1);
    }
    const double of_brighter = double(share) / LightPairs::kShares;
    const double apart = lights.deviation() / std::sqrt(of_brighter * (1 - of_brighter));
    pairs.mean[at] = std::uint16_t(std::lround(std::clamp(lights.mean(), 0.0, pairs.steps - 1.0)));
    pairs.apart[at] = std::uint8_t(std::min(std::lround(apart / LightPairs::kApart), 255l));
    pairs.share[at] = std::uint8_t(share);
}

// A pair as it is kept: mean, apart, share.
using Kept = std::array<int, 3>;

// The two lights that it stands for.
std::array<SharedLight, 2> lights_of(const Kept& pair, int steps) {
    const int apart = pair[1] * LightPairs::kApart;
    const double share = double(pair[2]) / LightPairs::kShares;
    const double low = std::max(std::round(pair[0] - apart * share), 0.0);
    return {{{low, 1 - share}, {std::min(low + apart, steps - 1.0), share}}};
}

// Gauss keeps moments; what counts is how far off the print is where it is most. So a pair that is off is
// moved about by single steps as long as that helps. Gives what it is off in the end.
double moved_pair(Kept& pair, CellTrial& trial, int steps) {
    constexpr int kMoves = 6;
    constexpr double kBeyondPairs = 2.5 * kAllowed;  // two lights will not do
    double off = trial.off(lights_of(pair, steps), kBeyondPairs);
    for (int moves = 0; moves < kMoves && off > kAllowed && off < kBeyondPairs; ++moves) {
        Kept best = pair;
        for (const auto& [what, by] : {std::pair{2, 1}, {2, -1}, {1, 1}, {1, -1}, {0, 1}, {0, -1}}) {
            Kept next = pair;
            next[std::size_t(what)] += by;
            if (next[2] < 1 || next[2] >= LightPairs::kShares || next[1] < 0 || next[1] > 255 ||
                next[0] < 0 || next[0] >= steps)
                continue;
            const double now = trial.off(lights_of(next, steps), off);
            if (now < off) {
                off = now;
                best = next;
            }
        }
        if (best == pair) break;
        pair = best;
    }
    return off;
}

void keep_finer(LightPairs& pairs, FinerLights& finer, std::size_t at, const FinerPixel& pixel) {
    pairs.mean[at] = std::uint16_t(pixel.mean);
    pairs.apart[at] = 0;
    pairs.share[at] = LightPairs::kShares / 2;
    finer.append(at, pixel);
}

// Steps of every code, in parts.
std::vector<std::uint16_t> parts_of_codes(const Scan& scan, const Printing& printing, double darkest,
                                          double brightest) {
    std::vector<std::uint16_t> parts;
    for (const NegativeDensity density : scan.scale()) {
        const double light = std::clamp(printing.light().log_light(density), darkest, brightest) - darkest;
        parts.push_back(std::uint16_t(std::lround(CellLights::kParts * light / LightPairs::kStep)));
    }
    return parts;
}

}  // namespace

int LightPairs::steps_between(double darkest, double brightest) {
    return int(std::ceil((brightest - darkest) / kStep)) + 1;
}

LightPairs light_pairs(const Scan& scan, const Printing& printing, double darkest, double brightest,
                       int long_side, const TrialPrints& prints) {
    LightPairs pairs{reduced_size(scan, long_side),
                     darkest,
                     LightPairs::steps_between(darkest, brightest),
                     {},
                     {},
                     {},
                     {},
                     0};
    const auto pixels = scan.pixels();
    const std::vector<Cell> columns = fractional_cells(pixels->width(), pairs.size.width),
                            rows = fractional_cells(pixels->height(), pairs.size.height);
    pairs.mean.resize(columns.size() * rows.size());
    pairs.apart.resize(pairs.mean.size());
    pairs.share.resize(pairs.mean.size());
    std::vector<FinerLights> finer(rows.size());
    std::vector<double> worst(rows.size());
    const auto parts = parts_of_codes(scan, printing, darkest, brightest);
    for_each_cell_row(*pixels, parts, rows, [&](std::size_t row, const CellRow& lines) {
        CellLights lights;
        CellTrial trial(prints);
        for (std::size_t column = 0; column < columns.size(); ++column) {
            const std::size_t at = row * columns.size() + column;
            lights.gather(lines, columns[column]);
            keep(pairs, at, lights);
            if (prints.none() || lights.span() <= kClose) continue;
            trial.of(lights.each());
            Kept pair{pairs.mean[at], pairs.apart[at], pairs.share[at]};
            double off = moved_pair(pair, trial, pairs.steps);
            if (off <= kAllowed) {
                pairs.mean[at] = std::uint16_t(pair[0]);
                pairs.apart[at] = std::uint8_t(pair[1]);
                pairs.share[at] = std::uint8_t(pair[2]);
            } else {
                const FinerPixel pixel =
                    finer_pixel(lights.each(), trial, pairs.mean[at], pairs.steps, kAllowed);
                keep_finer(pairs, finer[row], at, pixel);
                off = pixel.off;
            }
            worst[row] = std::max(worst[row], off);
        }
    });
    for (const FinerLights& of_row : finer) pairs.finer.append(of_row);
    pairs.worst = std::ranges::max(worst);
    return pairs;
}

}  // namespace fogproof::scan
