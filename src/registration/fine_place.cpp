// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/fine_place.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "registration/block_pull.hpp"
#include "registration/parabola.hpp"
#include "registration/tone_relation.hpp"
#include "registration/warp_equations.hpp"

namespace fogproof::registration {
namespace {

constexpr int kCoarsest = 200;  // pixels along the frame
constexpr int kSide = 12;       // of a block, pixels
// Least correlation of a block that may pull. Judgement; the first look is from some pixels off.
constexpr double kAlikeFirst = 0.45, kAlike = 0.6;
// Through the print's own tone curve a block is as strong as on the print, but for burns and bleach; a
// print's edge is far stronger. Judgement.
constexpr double kMostGain = 2.5;
constexpr std::size_t kFewestBlocks = 12;
// Texture that stands out of scanner noise and grain, in values of print and negative.
constexpr double kLeastTexture = 0.008, kLeastNoise = 0.004, kLeastEvenNoise = 0.002;
// An almost even block in which the negative leaves more unexplained shows something else. Judgement.
constexpr double kMostNoise = 0.03;
constexpr double kSlow = 8;  // pixels of the level; standard deviation
constexpr int kToneBins = 40;
constexpr int kRounds = 12, kSettlingRounds = 30;
constexpr double kSettled = 0.02;  // pixels of the level
// Pixels by which corners of prints with a rich texture were off. No doubt is told below it.
constexpr double kLeastDoubt = 0.2;

struct Asked {
    double alike, least_gain, most_gain;
};

// At the frame's rim the scanner blurs the border into the picture, which would draw the corners inwards.
bool is_at_rim(const Block& block, const FrameGrid& grid) {
    return block.left == 0 || block.top == 0 || block.right + kSide > grid.width ||
           block.bottom + kSide > grid.height;
}

bool is_textured(const Block& block, const Asked& asked) {
    return block.likeness > asked.alike && block.texture > kLeastTexture && block.gain > asked.least_gain &&
           block.gain < asked.most_gain;
}

std::vector<Block> pulling(std::vector<Block> all, const FrameGrid& grid, const Asked& asked) {
    std::erase_if(all, [&](const Block& block) {
        return !block.inside || is_at_rim(block, grid) || !is_textured(block, asked);
    });
    return all;
}

// Inside of the part that the print shows, by a block's side at least.
bool is_well_within(const FramePart& part, const Block& block) {
    return block.left >= part.left + kSide && block.right <= part.right - kSide &&
           block.top >= part.top + kSide && block.bottom <= part.bottom - kSide;
}

// What changes slowly (burns, falloff, the scanner's light) says nothing of places and leans on blocks.
GreyImage without_slow(const GreyImage& image) {
    GreyImage left = blurred(image, kSlow);
    for (std::size_t i = 0; i < left.values.size(); ++i) left.values[i] = image.values[i] - left.values[i];
    return left;
}

// The negative through the print's own tone curve, as the kept blocks show it.
GreyImage toned(const Level& level, const FrameWarp& warp, const FrameGrid& grid,
                const std::vector<Block>& kept) {
    const SeenFrame seen = seen_through(warp, grid, level.scan);
    std::vector<ToneRelation::Pair> pairs;
    for (const Block& block : kept)
        for (int y = block.top; y < block.bottom; ++y)
            for (int x = block.left; x < block.right; ++x)
                pairs.push_back({level.negative.at(x, y), seen.value.at(x, y)});
    const ToneRelation relation(std::move(pairs), kToneBins);
    GreyImage image = level.negative;
    for (float& value : image.values) value = relation.at(value);
    return image;
}

// Lightness as a scanner blurs it: in light. Blurred as lightness, every edge would move towards its dark
// side.
GreyImage blurred_in_light(GreyImage lightness, double sigma) {
    if (sigma <= 0) return lightness;
    for (float& value : lightness.values) value = value * value * value;
    lightness = blurred(lightness, sigma);
    for (float& value : lightness.values) value = std::cbrt(value);
    return lightness;
}

// The blur of the scan against the negative's, in pixels of the level, at which most of what varies in the
// scan's blocks is explained. Blocks weigh as they vary on the scan, which no blur of the negative changes.
double best_blur(const GreyImage& negative, const SeenFrame& seen, std::vector<Block> kept) {
    constexpr std::array kBlurs{0.0, 0.6, 0.9, 1.3, 1.8, 2.5, 3.5};
    std::vector<double> explained;
    for (const double blur : kBlurs) {
        const GreyImage soft = without_slow(blurred_in_light(negative, blur));
        double sum = 0;
        for (Block& block : kept) {
            compare(block, soft, seen);
            if (block.likeness > 0) sum += block.likeness * block.gain * block.texture;
        }
        explained.push_back(sum);
        if (explained.size() > 1 && sum < explained[explained.size() - 2]) break;
    }
    const auto best = std::size_t(std::ranges::max_element(explained) - explained.begin());
    if (best == 0 || best + 1 == explained.size()) return kBlurs[best];
    const double between = extremum_between(explained[best - 1], explained[best], explained[best + 1]);
    return std::lerp(kBlurs[best], kBlurs[between > 0 ? best + 1 : best - 1], std::abs(between));
}

struct HeldThere {
    FrameWarp warp;
    double corner_doubt;
    double blur;
    GreyImage expected;
};

FramePlace middle_of(const Block& block, const FrameGrid& grid) {
    return grid.place_of((block.left + block.right) / 2.0, (block.top + block.bottom) / 2.0);
}

double noise_of(const Block& block) {
    return std::hypot(block.noise, kLeastNoise);
}

std::optional<HeldThere> found_at(const Level& level, FrameWarp warp, const KnownMatches& known,
                                  bool is_first) {
    const FrameGrid grid{level.negative.width, level.negative.height};
    const GreyImage scan = without_slow(level.scan);
    GreyImage negative = without_slow(level.negative);
    bool is_toned = false;
    HeldThere found{};
    for (int round = 0; round < kRounds; ++round) {
        const SeenFrame seen = seen_through(warp, grid, scan);
        const int tones_at = is_first ? 2 : 0;
        const auto find = [&] {
            return pulling(blocks(negative, seen, kSide), grid,
                           {is_first && round <= tones_at ? kAlikeFirst : kAlike,
                            is_toned ? 1 / kMostGain : 0, is_toned ? kMostGain : HUGE_VAL});
        };
        auto kept = find();
        if (kept.size() < kFewestBlocks) return std::nullopt;
        if (round == tones_at) {
            const GreyImage sharp = toned(level, warp, grid, kept);
            found.blur = best_blur(sharp, seen, kept);
            found.expected = blurred_in_light(sharp, found.blur);
            negative = without_slow(found.expected);
            is_toned = true;
            kept = find();
            if (kept.size() < kFewestBlocks) return std::nullopt;
        }
        WarpEquations sums(warp, known, level.pitch);
        for (const Block& block : kept) {
            const BlockPull said = pull_of(block, negative, seen);
            sums.add(middle_of(block, grid), said, said.weight(noise_of(block)));
        }
        const auto solved = sums.solved();
        if (!solved) return std::nullopt;
        const double moved = farthest_corner_move(warp, solved->warp, grid);
        found.warp = warp = solved->warp;
        found.corner_doubt = corner_doubt(*solved, grid);
        if (round > 2 && moved < kSettled) break;
    }
    return found;
}

}  // namespace

std::vector<Level> levels(GreyImage negative, GreyImage scan) {
    std::vector<Level> all;
    all.push_back({std::move(negative), std::move(scan), 1});
    while (std::max(all.back().negative.width, all.back().negative.height) > 1.5 * kCoarsest &&
           std::min(all.back().scan.width, all.back().scan.height) > 2 * kSide)
        all.push_back({halved(all.back().negative), halved(all.back().scan), 2 * all.back().pitch});
    return all;
}

std::optional<FinePlace> fine_place(const std::vector<Level>& all, const CoarsePlace& near,
                                    double match_doubt) {
    FrameWarp warp = near.warp;
    std::optional<HeldThere> found;
    for (auto level = all.rbegin(); level != all.rend(); ++level) {
        auto here = found_at(*level, warp.on_pixels(level->pitch), {near.agreeing, match_doubt}, !found);
        // A small thing on empty ground fills too few blocks of a coarse level.
        if (!here) continue;
        found = std::move(here);
        warp = found->warp.on_pixels(1 / level->pitch);
    }
    if (!found) return std::nullopt;
    return FinePlace{warp, found->corner_doubt, found->blur, std::move(found->expected)};
}

FinePlace settled(FinePlace place, const GreyImage& lightness, const FramePart& part, const CoarsePlace& near,
                  double match_doubt) {
    const FrameGrid grid{place.expected.width, place.expected.height};
    const GreyImage scan = without_slow(lightness), negative = without_slow(place.expected);
    for (int round = 0; round < kSettlingRounds; ++round) {
        const SeenFrame seen = seen_through(place.warp, grid, scan);
        WarpEquations sums(place.warp, {near.agreeing, match_doubt}, 1);
        for (const Block& block : blocks(negative, seen, kSide)) {
            if (!block.inside || is_at_rim(block, grid)) continue;
            const bool has_texture = is_textured(block, {kAlike, 1 / kMostGain, kMostGain});
            if (!has_texture && (block.noise > kMostNoise || !is_well_within(part, block))) continue;
            BlockPull said = even_pull_of(block, negative, seen, place.warp, grid);
            if (has_texture) {
                const BlockPull by_scan = pull_of(block, negative, seen);
                said.slopes = by_scan.slopes, said.pull = by_scan.pull;
            }
            sums.add(middle_of(block, grid), said,
                     has_texture ? said.weight(noise_of(block))
                                 : even_weight(std::hypot(block.noise, kLeastEvenNoise)));
        }
        const auto solved = sums.solved();
        if (!solved) break;
        const double moved = farthest_corner_move(place.warp, solved->warp, grid);
        place.warp = solved->warp;
        place.corner_doubt = std::hypot(corner_doubt(*solved, grid), kLeastDoubt);
        if (moved < kSettled) break;
    }
    return place;
}

}  // namespace fogproof::registration
