// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/frame_cut.hpp"

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

#include "registration/tone_relation.hpp"
#include "system/threads.hpp"

namespace fogproof::registration {
namespace {

// Pixels of a block, and from one that is looked at to the next.
constexpr int kCutBlock = 24, kBetweenSamples = 6;
constexpr int kCurveTones = 24;
// Rms lightness (0 to 1) that is left of a block in its own place by noise and blur; of one that shows
// something else, or does not lie on the scan, no more counts. Judgement.
constexpr double kNoiseLeft = 0.01, kOtherLeft = 0.2;

// Of one place: what is seen of each block, in the order of `kBetweenSamples`.
using Samples = std::vector<std::vector<ToneRelation::Pair>>;

Samples samples_of(const GreyImage& negative, const SeenFrame& seen, int columns, int rows) {
    Samples all;
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column) {
            auto& pairs = all.emplace_back();
            for (int y = row * kCutBlock + kBetweenSamples / 2; y < (row + 1) * kCutBlock;
                 y += kBetweenSamples)
                for (int x = column * kCutBlock + kBetweenSamples / 2; x < (column + 1) * kCutBlock;
                     x += kBetweenSamples)
                    if (seen.inside[std::size_t(y) * std::size_t(negative.width) + std::size_t(x)])
                        pairs.push_back({negative.at(x, y), seen.value.at(x, y)});
        }
    return all;
}

// A rectangle of blocks, right and bottom not included.
struct Side {
    int left, top, right, bottom;
};

// Sum over the blocks of a side: logarithm of what one tone curve for all of them leaves.
double left_over(const Samples& samples, const Side& side, int columns) {
    std::vector<ToneRelation::Pair> together;
    const auto each_block = [&](const auto& act) {
        for (int row = side.top; row < side.bottom; ++row)
            for (int column = side.left; column < side.right; ++column)
                act(samples[std::size_t(row * columns + column)]);
    };
    each_block([&](const auto& pairs) { together.insert(together.end(), pairs.begin(), pairs.end()); });
    const ToneRelation curve(std::move(together), kCurveTones);
    double sum = 0;
    each_block([&](const auto& pairs) {
        constexpr std::size_t kWhole =
            std::size_t(kCutBlock / kBetweenSamples) * std::size_t(kCutBlock / kBetweenSamples);
        double squares = double(kWhole - pairs.size()) * kOtherLeft * kOtherLeft;
        for (const auto& [density, scan] : pairs) squares += std::pow(double(scan - curve.at(density)), 2);
        sum += std::log(std::clamp(std::sqrt(squares / double(kWhole)), kNoiseLeft, kOtherLeft));
    });
    return sum;
}

// Sums of votes over all columns (or rows) before each.
std::vector<double> votes_before(const BlockVotes& blocks, bool by_columns) {
    const int count = by_columns ? blocks.columns : blocks.rows;
    std::vector<double> sums(std::size_t(count) + 1, 0.0);
    for (int i = 0; i < count; ++i) {
        double sum = 0;
        for (int j = 0; j < (by_columns ? blocks.rows : blocks.columns); ++j)
            sum += by_columns ? blocks.at(i, j) : blocks.at(j, i);
        sums[std::size_t(i) + 1] = sums[std::size_t(i)] + sum;
    }
    return sums;
}

}  // namespace

CutParts cut_apart(const BlockVotes& first, const BlockVotes& second, int width, int height) {
    CutParts best;
    double most = -HUGE_VAL;
    for (const bool by_columns : {true, false}) {
        const auto one = votes_before(first, by_columns), other = votes_before(second, by_columns);
        for (std::size_t at = 1; at + 1 < one.size(); ++at)
            for (const bool first_is_before : {true, false}) {
                const auto& before = first_is_before ? one : other;
                const auto& after = first_is_before ? other : one;
                const double sum = before[at] + after.back() - after[at];
                if (sum <= most) continue;
                most = sum;
                const int cut = int(at) * first.side;
                FramePart low{0, 0, width, height}, high = low;
                if (by_columns)
                    low.right = high.left = cut;
                else
                    low.bottom = high.top = cut;
                best = first_is_before ? CutParts{low, high} : CutParts{high, low};
            }
    }
    return best;
}

CutParts cut_by_tones(const GreyImage& negative, const SeenFrame& first, const SeenFrame& second) {
    const int columns = negative.width / kCutBlock, rows = negative.height / kCutBlock;
    const Samples of_first = samples_of(negative, first, columns, rows),
                  of_second = samples_of(negative, second, columns, rows);
    struct Cut {
        Side low, high;
        CutParts parts;
        bool first_is_low;
        double left = 0;
    };
    std::vector<Cut> cuts;
    const FramePart whole{0, 0, negative.width, negative.height};
    const auto add = [&](const Side& low, const Side& high, const FramePart& before, const FramePart& after) {
        cuts.push_back({low, high, {before, after}, true});
        cuts.push_back({low, high, {after, before}, false});
    };
    for (int at = 1; at < columns; ++at) {
        FramePart before = whole, after = whole;
        before.right = after.left = at * kCutBlock;
        add({0, 0, at, rows}, {at, 0, columns, rows}, before, after);
    }
    for (int at = 1; at < rows; ++at) {
        FramePart before = whole, after = whole;
        before.bottom = after.top = at * kCutBlock;
        add({0, 0, columns, at}, {0, at, columns, rows}, before, after);
    }
    in_parallel(cuts.size(), [&](std::size_t i) {
        Cut& cut = cuts[i];
        cut.left = left_over(cut.first_is_low ? of_first : of_second, cut.low, columns) +
                   left_over(cut.first_is_low ? of_second : of_first, cut.high, columns);
    });
    const auto best = std::ranges::min_element(cuts, {}, &Cut::left);
    return best == cuts.end() ? CutParts{whole, whole} : best->parts;
}

}  // namespace fogproof::registration
