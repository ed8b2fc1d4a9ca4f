// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/fine_place.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "registration/block_pull.hpp"
#include "registration/blur_pull.hpp"
#include "registration/parabola.hpp"
#include "registration/row_bands.hpp"
#include "registration/tone_relation.hpp"
#include "registration/warp_equations.hpp"
#include "system/threads.hpp"

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
constexpr std::size_t kEnoughPairs = 200'000;  // to learn a tone curve from
constexpr int kRounds = 12, kSettlingRounds = 30;
// Pixels of the level by which a step may still move the corners, on the way and in the end.
constexpr double kClose = 0.1, kSettled = 0.02;
// Pixels by which corners of prints with a rich texture were off. No doubt is told below it.
constexpr double kLeastDoubt = 0.2;

struct Asked {
    double alike, least_gain, most_gain;
};
// Of blocks whose tone curve is known.
constexpr Asked kFirmly{kAlike, 1 / kMostGain, kMostGain};

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

// Inside of the part that the print shows, by so many pixels at least.
bool lies_in(const FramePart& part, const Block& block, int rim) {
    return block.left >= part.left + rim && block.right <= part.right - rim && block.top >= part.top + rim &&
           block.bottom <= part.bottom - rim;
}

std::array<FramePlace, 4> corners_of(const FramePart& part, const FrameGrid& grid) {
    return {grid.place_of(part.left, part.top), grid.place_of(part.right, part.top),
            grid.place_of(part.right, part.bottom), grid.place_of(part.left, part.bottom)};
}

// Those of the part.
std::vector<Match> matches_in(const FramePart& part, const FrameGrid& grid, std::vector<Match> matches) {
    const auto corners = corners_of(part, grid);
    std::erase_if(matches, [&](const Match& match) {
        return match.frame.u < corners[0].u || match.frame.u > corners[2].u || match.frame.v < corners[0].v ||
               match.frame.v > corners[2].v;
    });
    return matches;
}

// What changes slowly (burns, falloff, the scanner's light) says nothing of places and leans on blocks.
GreyImage without_slow(const GreyImage& image) {
    GreyImage left = blurred(image, kSlow);
    for (std::size_t i = 0; i < left.values.size(); ++i) left.values[i] = image.values[i] - left.values[i];
    return left;
}

template <class Curve>
GreyImage through(GreyImage image, const Curve& curve) {
    in_row_bands(image.height, [&](int first, int last) {
        const auto row = [&](int y) { return image.values.begin() + std::ptrdiff_t(y) * image.width; };
        std::transform(row(first), row(last), row(first), curve);
    });
    return image;
}

// The negative through the print's own tone curve, as the kept blocks show it.
GreyImage toned(const GreyImage& negative, const SeenFrame& seen, const std::vector<Block>& kept) {
    // Of every so many blocks, as large pictures have far more pixels than a curve needs.
    const std::size_t every = 1 + kept.size() * kSide * kSide / kEnoughPairs;
    std::vector<ToneRelation::Pair> pairs;
    for (std::size_t i = 0; i < kept.size(); i += every) {
        const Block& block = kept[i];
        for (int y = block.top; y < block.bottom; ++y)
            for (int x = block.left; x < block.right; ++x)
                pairs.push_back({negative.at(x, y), seen.value.at(x, y)});
    }
    const ToneRelation relation(std::move(pairs), kToneBins);
    return through(negative, [&relation](float value) { return relation.at(value); });
}

// Lightness as a scanner blurs it: in light. Blurred as lightness, every edge would move towards its dark
// side.
GreyImage blurred_in_light(GreyImage lightness, double sigma) {
    if (sigma <= 0) return lightness;
    const GreyImage light = through(std::move(lightness), [](float value) { return value * value * value; });
    return through(blurred(light, sigma), [](float value) { return std::cbrt(value); });
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
            const GreyImage sharp = toned(level.negative, seen_through(warp, grid, level.scan), kept);
            found.blur = best_blur(sharp, seen, kept);
            found.expected = blurred_in_light(sharp, found.blur);
            negative = without_slow(found.expected);
            is_toned = true;
            kept = find();
            if (kept.size() < kFewestBlocks) return std::nullopt;
        }
        std::vector<BlockPull> said(kept.size());
        in_parallel(kept.size(), [&](std::size_t i) { said[i] = pull_of(kept[i], negative, seen); });
        WarpEquations sums(warp, known, level.pitch);
        for (std::size_t i = 0; i < kept.size(); ++i)
            sums.add(middle_of(kept[i], grid), said[i], said[i].weight(noise_of(kept[i])));
        const auto solved = sums.solved();
        if (!solved) return std::nullopt;
        const double moved = farthest_corner_move(warp, solved->warp, grid);
        found.warp = warp = solved->warp;
        found.corner_doubt = corner_doubt(*solved, grid);
        if (round > tones_at && moved < kClose) break;
    }
    return found;
}

// `negative`, `scan`: of the place and of the finest level, without what changes slowly.
BlurChanges blur_changes(const FinePlace& place, const Level& finest, const GreyImage& softer,
                         const GreyImage& negative, const GreyImage& scan) {
    const FrameGrid grid{negative.width, negative.height};
    const auto kept = pulling(blocks(negative, seen_through(place.warp, grid, scan), kSide), grid, kFirmly);
    const SeenFrame seen = seen_through(place.warp, grid, finest.scan);
    // Each through a curve of its own: a softer negative's edges would be taken for another curve.
    const auto printed = [&](const GreyImage& film) {
        return without_slow(blurred_in_light(toned(film, seen, kept), place.blur));
    };
    const auto change = [](GreyImage after, const GreyImage& before) {
        for (std::size_t i = 0; i < after.values.size(); ++i) after.values[i] -= before.values[i];
        return after;
    };
    return {change(printed(softer), printed(finest.negative)),
            change(without_slow(blurred_in_light(place.expected, kBlurUnit)), negative)};
}

struct Said {
    BlockPull pull{};
    BlurPull blur{};
    double weight = 0;
};

// By a block with a texture or by an almost even one; nothing by others.
Said said_by(const Block& block, const GreyImage& negative, const BlurChanges& changes, const SeenFrame& seen,
             const FrameWarp& warp, const FrameGrid& grid, const FramePart& part, const FramePart& side) {
    if (!block.inside || is_at_rim(block, grid) || !lies_in(side, block, 0)) return {};
    const bool has_texture = is_textured(block, kFirmly);
    if (!has_texture && (block.noise > kMostNoise || !lies_in(part, block, kSide))) return {};
    BlockPull pull = even_pull_of(block, negative, seen, warp, grid);
    if (!has_texture) return {pull, {}, even_weight(std::hypot(block.noise, kLeastEvenNoise))};
    const BlockPull by_scan = pull_of(block, negative, seen);
    pull.slopes = by_scan.slopes, pull.pull = by_scan.pull;
    return {pull, blur_pull_of(block, negative, seen, changes), pull.weight(noise_of(block))};
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
        // A small thing on empty ground fills too few blocks of a coarse level; but the finest one must hold
        // it.
        if (!here && level + 1 == all.rend()) return std::nullopt;
        if (!here) continue;
        found = std::move(here);
        warp = found->warp.on_pixels(1 / level->pitch);
    }
    if (!found) return std::nullopt;
    return FinePlace{warp, found->corner_doubt, found->corner_doubt, found->blur, std::move(found->expected)};
}

FinePlace settled(FinePlace place, const Level& finest, const GreyImage& softer, const FramePart& part,
                  const CoarsePlace& near, double match_doubt, const std::optional<FramePart>& asked) {
    const FrameGrid grid{place.expected.width, place.expected.height};
    const GreyImage scan = without_slow(finest.scan), as_found = without_slow(place.expected);
    const BlurChanges changes = blur_changes(place, finest, softer, as_found, scan);
    const FramePart side = asked.value_or(FramePart{0, 0, grid.width, grid.height});
    const std::vector<Match> agreeing = matches_in(side, grid, near.agreeing);
    Blurs blurs = Blurs::Zero();
    for (int round = 0; round < kSettlingRounds; ++round) {
        const GreyImage negative = with_blurs(as_found, changes, blurs);
        const SeenFrame seen = seen_through(place.warp, grid, scan);
        const auto all = blocks(negative, seen, kSide);
        std::vector<Said> said(all.size());
        in_parallel(all.size(), [&](std::size_t i) {
            said[i] = said_by(all[i], negative, changes, seen, place.warp, grid, part, side);
        });
        WarpEquations sums(place.warp, {agreeing, match_doubt}, 1, blurs);
        for (std::size_t i = 0; i < all.size(); ++i)
            if (said[i].weight > 0)
                sums.add(middle_of(all[i], grid), said[i].pull, said[i].blur, said[i].weight);
        const auto solved = sums.solved();
        if (!solved) break;
        const double moved = farthest_corner_move(place.warp, solved->warp, grid);
        place.warp = solved->warp;
        blurs = solved->blurs;
        place.corner_doubt = std::hypot(corner_doubt(*solved, grid), kLeastDoubt);
        place.shown_doubt = std::hypot(worst_doubt(*solved, corners_of(part, grid)), kLeastDoubt);
        if (moved < kSettled) break;
    }
    return place;
}

}  // namespace fogproof::registration
