// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/agreement.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "registration/block_grid.hpp"
#include "registration/parabola.hpp"
#include "system/threads.hpp"

namespace fogproof::registration {
namespace {

constexpr int kBlock = 24, kSearch = 4;  // pixels: of a block, of the search
constexpr double kAlikeInPlace = 0.6;
// A block that is best alike within this many pixels of its place is where it should be.
constexpr double kInPlace = 1.0;
// A block that is so much less likely in its place than elsewhere (logarithm) is not there; two deviations.
constexpr double kClearlyElsewhere = 2;
// An edge looks the same all along itself, so of places that are nearly as alike the nearest counts: so many
// pixels of a block err by themselves, and a place that is off by so many pixels is a deviation off.
// Judgement.
constexpr double kOwnPixels = 12, kOffByChance = 2;
// Part of a block's variance that interpolation leaves unexplained at best.
constexpr double kLeastUnexplained = 1e-4;
// Standard deviation of values that stands out of grain and noise.
constexpr double kAskedTexture = 0.012;
// The same of what the negative leaves unexplained in a blurred print where this shows another picture; the
// blur in pixels.
constexpr double kPicture = 0.012, kSmooth = 2.5;
// Weight of a block that is not alike against one that is, where the print's part of the frame is sought.
constexpr double kAgainst = 0.7;
// Blocks of regions that show something else, of those among the alike ones. Judgement, tried on prints of
// the negative and of its neighbours.
constexpr double kMostOther = 0.05;
// Share of the blocks among the alike ones that are alike themselves; where fewer are, much of the negative
// is not on the print. Judgement, tried likewise: 0.84 and more on prints of the negative, 0.7 and less where
// somebody moved or the camera stood elsewhere and blocks in a rectangle agreed.
constexpr double kLeastAround = 0.75;
// Share of neighbours that are left out at either end where a drift is told.
constexpr double kDriftLeftOut = 0.05;
// Share of the alike blocks that may lie beyond where others are looked for, at each side; and of neighbours
// that make a block one of a region.
constexpr double kBeyond = 0.02, kMostlyAgainst = 0.75;

// How sharply a block's likeness singles out its place: 1 in the direction in which it does so most, and 0
// along an outline that looks the same wherever it is slid to.
struct Sharpness {
    double across = 0, down = 0, mixed = 0;
};

struct Answer {
    bool is_asked = false, is_alike = false, is_picture = false, is_seen = false;
    double right = 0, down = 0;
    Sharpness sharp{};
    /// The shift without what nobody can tell of it.
    [[nodiscard]] double told_right() const { return sharp.across * right + sharp.mixed * down; }
    [[nodiscard]] double told_down() const { return sharp.mixed * right + sharp.down * down; }
};

// From how fast the logarithm of the chance falls around its best, in each direction.
Sharpness sharpness(double across, double down, double mixed) {
    const double middle = (across + down) / 2, spread = std::hypot((across - down) / 2, mixed),
                 most = middle + spread;
    if (!(most > 0)) return {};
    // Where it rises along one direction it tells nothing there.
    if (middle - spread >= 0) return {across / most, down / most, mixed / most};
    const double turned = std::atan2(2 * mixed, across - down) / 2, c = std::cos(turned),
                 s = std::sin(turned);
    return {c * c, s * s, c * s};
}

double likeness(const GreyImage& negative, const SeenFrame& seen, const Block& block, int dx, int dy) {
    double n = 0, sn = 0, ss = 0, snn = 0, sss = 0, sns = 0;
    for (int y = block.top; y < block.bottom; ++y)
        for (int x = block.left; x < block.right; ++x) {
            const double a = double(negative.at(x, y)), b = double(seen.value.at(x + dx, y + dy));
            n += 1, sn += a, ss += b, snn += a * a, sss += b * b, sns += a * b;
        }
    const double nn = snn / n - sn * sn / n / n, ssv = sss / n - ss * ss / n / n,
                 ns = sns / n - sn * ss / n / n;
    return nn > 0 && ssv > 0 ? ns / std::sqrt(nn * ssv) : 0;
}

// Of a block that is so alike (correlation) at a shift, up to a constant.
double log_chance(double alike, int dx, int dy) {
    const double unexplained = alike > 0 ? 1 - alike * alike : 1;
    return -kOwnPixels / 2 * std::log(std::max(unexplained, kLeastUnexplained)) -
           (dx * dx + dy * dy) / (2 * kOffByChance * kOffByChance);
}

Answer asked(const GreyImage& negative, const SeenFrame& seen, const Block& block, double unexplained) {
    constexpr int kShifts = 2 * kSearch + 1;
    std::array<std::array<double, kShifts>, kShifts> chances{};
    double best = -HUGE_VAL, alike = 0;
    int bx = 0, by = 0;
    for (int dy = -kSearch; dy <= kSearch; ++dy)
        for (int dx = -kSearch; dx <= kSearch; ++dx) {
            double& each = chances[std::size_t(dy + kSearch)][std::size_t(dx + kSearch)];
            const double like = likeness(negative, seen, block, dx, dy);
            each = log_chance(like, dx, dy);
            if (each > best) best = each, bx = dx, by = dy, alike = like;
        }
    Answer answer{true, false, unexplained > kPicture, false, double(kSearch), double(kSearch)};
    const double in_place = likeness(negative, seen, block, 0, 0);
    answer.is_alike = in_place > kAlikeInPlace && best - log_chance(in_place, 0, 0) < kClearlyElsewhere;
    if (std::abs(bx) == kSearch || std::abs(by) == kSearch) return answer;
    const auto at = [&](int dx, int dy) {
        return chances[std::size_t(dy + kSearch)][std::size_t(dx + kSearch)];
    };
    answer.right = bx + extremum_between(at(bx - 1, by), best, at(bx + 1, by));
    answer.down = by + extremum_between(at(bx, by - 1), best, at(bx, by + 1));
    answer.sharp =
        sharpness(2 * best - at(bx - 1, by) - at(bx + 1, by), 2 * best - at(bx, by - 1) - at(bx, by + 1),
                  (at(bx + 1, by - 1) + at(bx - 1, by + 1) - at(bx + 1, by + 1) - at(bx - 1, by - 1)) / 4);
    // A long outline that is slid along itself is in its place, too.
    if (alike > kAlikeInPlace && std::hypot(answer.told_right(), answer.told_down()) < kInPlace)
        answer.is_alike = true;
    answer.is_seen = alike > kAlikeInPlace;
    return answer;
}

bool is_inside(const SeenFrame& seen, const Block& block) {
    for (int y = block.top - kSearch; y < block.bottom + kSearch; ++y)
        for (int x = block.left - kSearch; x < block.right + kSearch; ++x)
            if (!seen.value.holds(x, y) ||
                !seen.inside[std::size_t(y) * std::size_t(seen.value.width) + std::size_t(x)])
                return false;
    return true;
}

bool is_within(const std::optional<FramePart>& part, const Block& block) {
    return !part || (block.left >= part->left && block.right <= part->right && block.top >= part->top &&
                     block.bottom <= part->bottom);
}

struct BlockPart {
    int left = 0, top = 0, right = 0, bottom = 0;  ///< in blocks; right and bottom not included
    [[nodiscard]] bool holds(int x, int y) const { return x >= left && x < right && y >= top && y < bottom; }
};

// The rectangle that holds most alike blocks and least others; not beyond `most`, where even ground that says
// nothing would be taken along.
BlockPart fullest(const BlockVotes& blocks, const BlockPart& most) {
    BlockPart best;
    double sum = 0;
    for (int top = most.top; top < most.bottom; ++top) {
        std::vector<double> column(std::size_t(blocks.columns), 0.0);
        for (int bottom = top; bottom < most.bottom; ++bottom) {
            double run = 0;
            int left = most.left;
            for (int x = most.left; x < most.right; ++x) {
                column[std::size_t(x)] += blocks.at(x, bottom);
                if (run <= 0) run = 0, left = x;
                run += column[std::size_t(x)];
                if (run > sum) best = {left, top, x + 1, bottom + 1}, sum = run;
            }
        }
    }
    return best;
}

bool is_against(const Answer& answer) {
    return answer.is_picture && !answer.is_alike;
}

// Whole regions that show something else, among those that are alike: somebody moved between two exposures.
void count_others(Agreement& sum, const std::vector<Answer>& answers, int columns, int rows) {
    std::vector<int> xs, ys;
    const auto at = [&](int x, int y) -> const Answer& {
        return answers[std::size_t(y) * std::size_t(columns) + std::size_t(x)];
    };
    for (int y = 0; y < rows; ++y)
        for (int x = 0; x < columns; ++x)
            if (at(x, y).is_alike) xs.push_back(x), ys.push_back(y);
    if (xs.empty()) return;
    std::ranges::sort(xs), std::ranges::sort(ys);
    const auto low = [](const std::vector<int>& v) { return v[std::size_t(kBeyond * double(v.size()))]; };
    const auto high = [](const std::vector<int>& v) {
        return v[std::size_t((1 - kBeyond) * double(v.size() - 1))];
    };
    for (int y = low(ys); y <= high(ys); ++y)
        for (int x = low(xs); x <= high(xs); ++x) {
            sum.around += at(x, y).is_asked, sum.agreeing += at(x, y).is_alike;
            if (!is_against(at(x, y))) continue;
            int neighbours = 0, against = 0;
            for (int v = std::max(0, y - 1); v <= std::min(rows - 1, y + 1); ++v)
                for (int u = std::max(0, x - 1); u <= std::min(columns - 1, x + 1); ++u)
                    neighbours += at(u, v).is_asked, against += is_against(at(u, v));
            sum.other += neighbours >= 5 && against >= kMostlyAgainst * neighbours;
        }
}

// What neighbouring blocks are off by together, each as far as it can tell: a camera that stood elsewhere,
// not noise, and not a long outline that is slid along itself.
double drift_of(const std::vector<Answer>& answers, int columns, int rows) {
    struct Pair {
        double product, told;
    };
    std::vector<Pair> together;
    const auto at = [&](int x, int y) -> const Answer& {
        return answers[std::size_t(y) * std::size_t(columns) + std::size_t(x)];
    };
    for (int y = 0; y < rows; ++y)
        for (int x = 0; x < columns; ++x)
            for (const auto& [u, v] : {std::pair{x + 1, y}, {x, y + 1}}) {
                if (u >= columns || v >= rows || !at(x, y).is_seen || !at(u, v).is_seen) continue;
                const Answer &one = at(x, y), &next = at(u, v);
                together.push_back({one.told_right() * next.told_right() + one.told_down() * next.told_down(),
                                    (one.sharp.across * next.sharp.across + one.sharp.down * next.sharp.down +
                                     2 * one.sharp.mixed * next.sharp.mixed) /
                                        2});
            }
    // A few pairs lie on the edge of a print or of something upon it.
    std::ranges::sort(together, {}, &Pair::product);
    const auto left_out = std::ptrdiff_t(kDriftLeftOut * double(together.size()));
    const std::span<const Pair> counted(together.begin() + left_out, together.end() - left_out);
    double sum = 0, told = 0;
    for (const Pair& pair : counted) sum += pair.product, told += pair.told;
    return told > 0 ? std::sqrt(std::max(0.0, sum / told)) : 0;
}

}  // namespace

Agreement agreement(const GreyImage& expected, const SeenFrame& seen,
                    const std::optional<FramePart>& within) {
    const auto all = blocks(expected, seen, kBlock);
    // Noise is gone where it is blurred; what then is unexplained is a picture.
    SeenFrame smooth = seen;
    smooth.value = blurred(seen.value, kSmooth);
    const auto unexplained = blocks(blurred(expected, kSmooth), smooth, kBlock);
    std::vector<Answer> answers(all.size());
    in_parallel(all.size(), [&](std::size_t i) {
        if (all[i].texture > kAskedTexture && is_within(within, all[i]) && is_inside(seen, all[i]))
            answers[i] = asked(expected, seen, all[i], unexplained[i].noise);
    });
    const int columns = expected.width / kBlock, rows = expected.height / kBlock;
    Agreement sum;
    sum.votes = {kBlock, columns, rows, {}};
    for (const Answer& answer : answers)
        sum.votes.votes.push_back(answer.is_alike ? 1 : answer.is_asked ? -kAgainst : 0);
    const BlockPart best =
        fullest(sum.votes,
                within ? BlockPart{(within->left + kBlock - 1) / kBlock, (within->top + kBlock - 1) / kBlock,
                                   within->right / kBlock, within->bottom / kBlock}
                       : BlockPart{0, 0, columns, rows});
    sum.part = {best.left * kBlock, best.top * kBlock, best.right * kBlock, best.bottom * kBlock};
    for (int y = 0; y < rows; ++y)
        for (int x = 0; x < columns; ++x) {
            const Answer& answer = answers[std::size_t(y) * std::size_t(columns) + std::size_t(x)];
            if (!best.holds(x, y)) {
                sum.against += answer.is_picture && !answer.is_alike;
                continue;
            }
            sum.votes_of_part += sum.votes.at(x, y);
            sum.asked += answer.is_asked, sum.alike += answer.is_alike;
        }
    count_others(sum, answers, columns, rows);
    sum.drift = drift_of(answers, columns, rows);
    return sum;
}

bool have_other_regions(std::initializer_list<Agreement> pieces) {
    std::size_t other = 0, around = 0, agreeing = 0;
    for (const Agreement& piece : pieces)
        other += piece.other, around += piece.around, agreeing += piece.agreeing;
    return double(other) > kMostOther * double(around) || double(agreeing) < kLeastAround * double(around);
}

}  // namespace fogproof::registration
