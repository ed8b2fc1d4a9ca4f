// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/fine_place.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>

#include "registration/parabola.hpp"
#include "registration/tone_relation.hpp"

namespace fogproof::registration {
namespace {

constexpr int kNumbers = FrameWarp::kNumbers;
using Numbers = Eigen::Matrix<double, kNumbers, 1>;
using Normal = Eigen::Matrix<double, kNumbers, kNumbers>;

constexpr int kCoarsest = 200;  // pixels along the frame
constexpr int kSide = 12;       // of a block, pixels
// Least correlation of a block that may pull. Judgement; the first look is from some pixels off.
constexpr double kAlikeFirst = 0.45, kAlike = 0.6;
// Through the print's own tone curve a block is as strong as on the print, but for burns and bleach; a
// print's edge is far stronger. Judgement.
constexpr double kMostGain = 2.5;
constexpr std::size_t kFewestBlocks = 12;
// Texture that stands out of scanner noise and grain, in values of print and negative.
constexpr double kLeastTexture = 0.008, kLeastNoise = 0.004;
constexpr double kSlow = 8;  // pixels of the level; standard deviation
constexpr int kToneBins = 40;
constexpr int kRounds = 12;
constexpr double kSettled = 0.02;  // pixels of the level
// Taper and lens are slight: so much by standard deviation, in the units of FrameWarp. Judgement.
constexpr double kTaper = 0.01, kLens = 0.004;
// Neighbouring pixels err together: so many count as one.
constexpr double kAlikePixels = 60;

// A block whose own best place is so many squared deviations away counts a quarter. Judgement.
constexpr double kFar = 9;
// Pixels by which a block without a texture in some direction is taken to lie off there: its inverse square.
constexpr double kStill = 1;

struct Equations {
    Normal normal = Normal::Zero();
    Numbers right = Numbers::Zero();
    std::size_t blocks = 0;
};

Numbers row_at(const FrameWarp& warp, const FramePlace& place, const SeenFrame& seen, std::size_t at) {
    const auto by = warp.derivatives(place);
    const double gx = double(seen.along_x.values[at]), gy = double(seen.along_y.values[at]);
    Numbers row;
    for (int i = 0; i < kNumbers; ++i) row[i] = gx * by[0][std::size_t(i)] + gy * by[1][std::size_t(i)];
    return row;
}

// How far a block may be trusted whose own best place lies elsewhere: dust, a print's edge, another picture.
double trust(const Eigen::Vector2d& shifted, const Eigen::Matrix2d& slopes, double noise) {
    const Eigen::Matrix2d held = slopes + kStill * noise * noise * Eigen::Matrix2d::Identity();
    const double squared = shifted.dot(held.inverse() * shifted) / (noise * noise * kAlikePixels);
    return 1 / ((1 + squared / kFar) * (1 + squared / kFar));
}

void add(Equations& sums, const Block& block, const FrameWarp& warp, const FrameGrid& grid,
         const GreyImage& negative, const SeenFrame& seen) {
    Normal normal = Normal::Zero();
    Numbers right = Numbers::Zero(), mean = Numbers::Zero();
    Eigen::Matrix2d turned = Eigen::Matrix2d::Zero();
    Eigen::Vector2d shifted = Eigen::Vector2d::Zero(), flat = Eigen::Vector2d::Zero();
    double count = 0;
    for (int y = block.top; y < block.bottom; ++y)
        for (int x = block.left; x < block.right; ++x) {
            const std::size_t at = std::size_t(y) * std::size_t(grid.width) + std::size_t(x);
            const Numbers row = row_at(warp, grid.place(x, y), seen, at);
            const double miss = double(seen.value.values[at]) - block.scan_mean -
                                block.gain * (double(negative.values[at]) - block.negative_mean);
            normal.selfadjointView<Eigen::Lower>().rankUpdate(row);
            right += miss * row, mean += row, count += 1;
            const Eigen::Vector2d slope(double(seen.along_x.values[at]), double(seen.along_y.values[at]));
            turned += slope * slope.transpose(), shifted += miss * slope, flat += slope;
        }
    turned -= flat * flat.transpose() / count;
    normal.selfadjointView<Eigen::Lower>().rankUpdate(mean, -1 / count);
    const double noise = std::hypot(block.noise, kLeastNoise);
    const double weight = trust(shifted, turned, noise) / (noise * noise * kAlikePixels);
    sums.normal += weight * normal;
    sums.right += weight * right;
    ++sums.blocks;
}

// What is known beforehand: taper and lens are slight.
void add_prior(Equations& sums, const FrameWarp& warp) {
    for (const auto& [i, spread] : {std::pair{6, kTaper}, {7, kTaper}, {8, kLens}}) {
        sums.normal(i, i) += 1 / (spread * spread);
        sums.right[i] += warp.numbers[std::size_t(i)] / (spread * spread);
    }
}

struct Asked {
    double alike, least_gain, most_gain;
};

// At the frame's rim the scanner blurs the border into the picture, which would draw the corners inwards.
bool is_at_rim(const Block& block, const FrameGrid& grid) {
    return block.left == 0 || block.top == 0 || block.right + kSide > grid.width ||
           block.bottom + kSide > grid.height;
}

std::vector<Block> pulling(const std::vector<Block>& all, const FrameGrid& grid, const Asked& asked) {
    std::vector<Block> kept;
    for (const Block& block : all)
        if (block.inside && !is_at_rim(block, grid) && block.likeness > asked.alike &&
            block.texture > kLeastTexture && block.gain > asked.least_gain && block.gain < asked.most_gain)
            kept.push_back(block);
    return kept;
}

double farthest_corner_move(const FrameWarp& before, const FrameWarp& after, const FrameGrid& grid) {
    double most = 0;
    for (const FramePlace& corner : frame_corners(grid.width, grid.height)) {
        const ScanPlace a = before.at(corner), b = after.at(corner);
        most = std::max(most, std::hypot(a.x - b.x, a.y - b.y));
    }
    return most;
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

struct Solved {
    FrameWarp warp;
    Normal covariance;
    std::vector<Block> kept;
    double blur = 0;
    GreyImage expected;
};

struct Known {
    std::span<const Match> matches;  ///< on pixels of the finest scan
    double doubt;                    ///< of each, in these pixels
};

// Matches are good to some pixels each, and keypoints close by err together.
void add_matches(Equations& sums, const Known& known, const FrameWarp& warp, double pitch) {
    const double doubt = known.doubt / pitch;
    for (const Match& match : known.matches) {
        const auto [x, y] = warp.at(match.frame);
        const double dx = x - match.scan.x / pitch, dy = y - match.scan.y / pitch;
        const double far = (dx * dx + dy * dy) / (doubt * doubt * kFar),
                     weight = 1 / (doubt * doubt * (1 + far) * (1 + far));
        const auto by = warp.derivatives(match.frame);
        const Eigen::Map<const Numbers> along_x(by[0].data()), along_y(by[1].data());
        sums.normal.selfadjointView<Eigen::Lower>().rankUpdate(along_x, weight);
        sums.normal.selfadjointView<Eigen::Lower>().rankUpdate(along_y, weight);
        sums.right += weight * (dx * along_x + dy * along_y);
    }
}

std::optional<Solved> solved_at(const Level& level, FrameWarp warp, const Known& known, bool is_first) {
    const FrameGrid grid{level.negative.width, level.negative.height};
    const GreyImage scan = without_slow(level.scan);
    GreyImage negative = without_slow(level.negative);
    bool is_toned = false;
    Solved solved;
    for (int round = 0; round < kRounds; ++round) {
        const SeenFrame seen = seen_through(warp, grid, scan);
        const int tones_at = is_first ? 2 : 0;
        const auto find = [&] {
            return pulling(blocks(negative, seen, kSide), grid,
                           {is_first && round <= tones_at ? kAlikeFirst : kAlike,
                            is_toned ? 1 / kMostGain : 0, is_toned ? kMostGain : HUGE_VAL});
        };
        solved.kept = find();
        if (solved.kept.size() < kFewestBlocks) return std::nullopt;
        if (round == tones_at) {
            const GreyImage sharp = toned(level, warp, grid, solved.kept);
            solved.blur = best_blur(sharp, seen, solved.kept);
            solved.expected = blurred_in_light(sharp, solved.blur);
            negative = without_slow(solved.expected);
            is_toned = true;
            solved.kept = find();
            if (solved.kept.size() < kFewestBlocks) return std::nullopt;
        }
        Equations sums;
        for (const Block& block : solved.kept) add(sums, block, warp, grid, negative, seen);
        add_matches(sums, known, warp, level.pitch);
        add_prior(sums, warp);
        const Normal full = sums.normal.selfadjointView<Eigen::Lower>();
        const Eigen::LDLT<Normal> factors(full);
        const Numbers step = factors.solve(sums.right);
        if (!step.allFinite()) return std::nullopt;
        const FrameWarp before = warp;
        for (int i = 0; i < kNumbers; ++i) warp.numbers[std::size_t(i)] -= step[i];
        solved.covariance = factors.solve(Normal::Identity());
        if (round > 2 && farthest_corner_move(before, warp, grid) < kSettled) break;
    }
    solved.warp = warp;
    return solved;
}

double corner_doubt(const Solved& solved, const FrameGrid& grid) {
    double worst = 0;
    for (const FramePlace& corner : frame_corners(grid.width, grid.height)) {
        const auto by = solved.warp.derivatives(corner);
        double sum = 0;
        for (const auto& line : by) {
            const Eigen::Map<const Numbers> row(line.data());
            sum += row.dot(solved.covariance * row);
        }
        worst = std::max(worst, std::sqrt(sum));
    }
    return worst;
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
    std::optional<Solved> solved;
    bool is_first = true;
    for (auto level = all.rbegin(); level != all.rend(); ++level) {
        solved = solved_at(*level, warp.on_pixels(level->pitch), {near.agreeing, match_doubt}, is_first);
        // A small thing on empty ground fills too few blocks of a coarse level.
        if (!solved) continue;
        warp = solved->warp.on_pixels(1 / level->pitch);
        is_first = false;
    }
    if (!solved) return std::nullopt;
    const FrameGrid grid{all.front().negative.width, all.front().negative.height};
    return FinePlace{warp, corner_doubt(*solved, grid), std::move(solved->kept), solved->blur,
                     std::move(solved->expected)};
}

}  // namespace fogproof::registration
