// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/frame_cut.hpp"

#include <algorithm>
#include <cmath>
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

// A cut between blocks: what lies before and behind it, and which of both places shows the first.
struct Cut {
    Side before, behind;
    CutParts parts;
    bool first_is_before;
};

std::vector<Cut> all_cuts(int width, int height, int side) {
    const int columns = width / side, rows = height / side;
    const FramePart whole{0, 0, width, height};
    std::vector<Cut> cuts;
    const auto add = [&cuts](const Side& before, const Side& behind, const FramePart& low,
                             const FramePart& high) {
        cuts.push_back({before, behind, {low, high}, true});
        cuts.push_back({before, behind, {high, low}, false});
    };
    for (int at = 1; at < columns; ++at) {
        FramePart low = whole, high = whole;
        low.right = high.left = at * side;
        add({0, 0, at, rows}, {at, 0, columns, rows}, low, high);
    }
    for (int at = 1; at < rows; ++at) {
        FramePart low = whole, high = whole;
        low.bottom = high.top = at * side;
        add({0, 0, columns, at}, {0, at, columns, rows}, low, high);
    }
    return cuts;
}

// The cut for which the sides say least against their places: `against` of the first and of the second place.
CutParts best_cut(int width, int height, int side, const auto& against_first, const auto& against_second) {
    const std::vector<Cut> cuts = all_cuts(width, height, side);
    if (cuts.empty()) return {{0, 0, width, height}, {0, 0, width, height}};
    std::vector<double> against(cuts.size());
    in_parallel(cuts.size(), [&](std::size_t i) {
        const auto& [before, behind, parts, first_is_before] = cuts[i];
        against[i] = against_first(first_is_before ? before : behind) +
                     against_second(first_is_before ? behind : before);
    });
    return cuts[std::size_t(std::ranges::min_element(against) - against.begin())].parts;
}

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

double votes_against(const BlockVotes& blocks, const Side& side) {
    double sum = 0;
    for (int row = side.top; row < side.bottom; ++row)
        for (int column = side.left; column < side.right; ++column) sum -= blocks.at(column, row);
    return sum;
}

}  // namespace

CutParts cut_by_detail(const BlockVotes& first, const BlockVotes& second, int width, int height) {
    return best_cut(
        width, height, first.side, [&first](const Side& side) { return votes_against(first, side); },
        [&second](const Side& side) { return votes_against(second, side); });
}

double left_by_tones(const GreyImage& negative, const SeenFrame& seen, const FramePart& part) {
    const int columns = negative.width / kCutBlock, rows = negative.height / kCutBlock;
    const Side side{part.left / kCutBlock, part.top / kCutBlock, std::min(columns, part.right / kCutBlock),
                    std::min(rows, part.bottom / kCutBlock)};
    const double blocks = double(side.right - side.left) * double(side.bottom - side.top);
    return blocks > 0 ? left_over(samples_of(negative, seen, columns, rows), side, columns) / blocks : 0;
}

CutParts cut_by_tones(const GreyImage& negative, const SeenFrame& first, const SeenFrame& second) {
    const int columns = negative.width / kCutBlock, rows = negative.height / kCutBlock;
    const Samples of_first = samples_of(negative, first, columns, rows),
                  of_second = samples_of(negative, second, columns, rows);
    return best_cut(
        negative.width, negative.height, kCutBlock,
        [&](const Side& side) { return left_over(of_first, side, columns); },
        [&](const Side& side) { return left_over(of_second, side, columns); });
}

}  // namespace fogproof::registration
