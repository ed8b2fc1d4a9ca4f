// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/beyond_frame.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "base/quantile.hpp"

namespace fogproof::registration {
namespace {

// Parts of the frame's longer side by which the lines lie off its edge, to either side. Frames are found to a
// pixel or two; a neighbouring picture of a series is off by more. Judgement.
constexpr double kOff = 0.008;
// A side may be reached by what is shown within so many times that: even ground at the rim does not tell, but
// the line inside is held against the negative.
constexpr double kReaches = 12;
constexpr double kLineBlur = 1;  // pixels
constexpr int kPlaces = 200, kFewestPlaces = 60;
// Lines so many blurs apart are held against each other, which no blur makes alike, where those inside are
// still so much alike. Judgement.
constexpr double kApart = 3, kStillAlike = 0.35, kMostApart = 1.7;
// Half the places over which a line is evened.
constexpr int kBroad = 10;
constexpr double kNotSeen = std::numeric_limits<double>::quiet_NaN();
// Standard deviation of a line that shows a picture, in values; and how nearly the line inside must be what
// the negative makes expect, in its course and in its mean. A crop's edge, a border and a lid all lie along a
// side too, and another print that begins there has a course. Judgement.
constexpr double kPictureLine = 0.015, kAsExpected = 0.7, kMeanAsExpected = 0.1;

// A line beyond the frame with less than such a part of the fine detail of the line inside shows something
// smoother than the picture: a lid or another print. Judgement.
constexpr double kSmoother = 0.5;

double correlation(const std::vector<double>& a, const std::vector<double>& b) {
    double n = 0, sa = 0, sb = 0, saa = 0, sbb = 0, sab = 0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (std::isnan(a[i]) || std::isnan(b[i])) continue;
        n += 1, sa += a[i], sb += b[i], saa += a[i] * a[i], sbb += b[i] * b[i], sab += a[i] * b[i];
    }
    if (n < kFewestPlaces) return 0;
    const double va = saa / n - sa * sa / n / n, vb = sbb / n - sb * sb / n / n;
    if (va < kPictureLine * kPictureLine || vb < kPictureLine * kPictureLine) return 0;
    return (sab / n - sa * sb / n / n) / std::sqrt(va * vb);
}

// By how much one is lighter than the other on average, where both are seen.
double mean_difference(const std::vector<double>& one, const std::vector<double>& other) {
    double sum = 0;
    int count = 0;
    for (std::size_t i = 0; i < one.size(); ++i)
        if (!std::isnan(one[i]) && !std::isnan(other[i])) sum += one[i] - other[i], ++count;
    return count > 0 ? sum / count : 0;
}

// What is broad along a side is alike by chance.
std::vector<double> without_broad(const std::vector<double>& line) {
    std::vector<double> detail(line.size(), kNotSeen);
    for (int i = 0; i < int(line.size()); ++i) {
        double sum = 0;
        int count = 0;
        for (int k = std::max(0, i - kBroad); k <= std::min(int(line.size()) - 1, i + kBroad); ++k)
            if (!std::isnan(line[std::size_t(k)])) sum += line[std::size_t(k)], ++count;
        if (count > 0) detail[std::size_t(i)] = line[std::size_t(i)] - sum / count;
    }
    return detail;
}

// Of fine detail, whatever single edges a line crosses.
double roughness(const std::vector<double>& line) {
    std::vector<double> sizes;
    for (const double value : without_broad(line))
        if (!std::isnan(value)) sizes.push_back(std::abs(value));
    return sizes.empty() ? 0 : median(std::move(sizes));
}

}  // namespace

double continued_beyond(const FrameWarp& warp, const GreyImage& expected, double blur, const FramePart& shown,
                        const GreyImage& scan) {
    const FrameGrid grid{expected.width, expected.height};
    const double off = kOff * std::max(grid.width, grid.height), reach = kReaches * off,
                 apart = kApart * std::hypot(blur, kLineBlur);
    const double right = grid.width, bottom = grid.height;
    struct Side {
        double gap;  ///< from the part that is shown
        double x0, y0, x1, y1, out_x, out_y;
    };
    const std::array<Side, 4> sides{
        {{double(shown.top), double(shown.left), 0, double(shown.right), 0, 0, -off},
         {right - shown.right, right, double(shown.top), right, double(shown.bottom), off, 0},
         {bottom - shown.bottom, double(shown.left), bottom, double(shown.right), bottom, 0, off},
         {double(shown.left), 0, double(shown.top), 0, double(shown.bottom), -off, 0}}};
    const GreyImage smooth = blurred(scan, kLineBlur), smooth_expected = blurred(expected, kLineBlur);
    const auto look = [&](double x, double y) {
        const auto [sx, sy] = warp.at(grid.place_of(x, y));
        if (!(sx >= 0 && sy >= 0) || !smooth.holds(int(sx), int(sy))) return kNotSeen;
        return double(smooth.at(int(sx), int(sy)));
    };
    const auto along_side = [](int place) { return 0.03 + 0.94 * place / (kPlaces - 1); };
    double most = 0;
    for (const Side& side : sides) {
        if (side.gap > reach) continue;
        // A line along the side, so many pixels outside of it.
        const auto line_at = [&](double out) {
            std::vector<double> line;
            for (int i = 0; i < kPlaces; ++i) {
                const double t = along_side(i), far = out / off;
                line.push_back(look(side.x0 + t * (side.x1 - side.x0) + far * side.out_x,
                                    side.y0 + t * (side.y1 - side.y0) + far * side.out_y));
            }
            return line;
        };
        std::vector<double> asked;
        for (int i = 0; i < kPlaces; ++i) {
            const double t = along_side(i);
            const double x = side.x0 + t * (side.x1 - side.x0) - side.out_x,
                         y = side.y0 + t * (side.y1 - side.y0) - side.out_y;
            asked.push_back(double(smooth_expected.at(std::clamp(int(x), 0, grid.width - 1),
                                                      std::clamp(int(y), 0, grid.height - 1))));
        }
        const std::vector<double> inside = line_at(-off);
        if (correlation(inside, asked) <= kAsExpected) continue;
        if (std::abs(mean_difference(inside, asked)) > kMeanAsExpected) continue;
        if (roughness(line_at(off)) < kSmoother * roughness(inside)) continue;
        // The picture goes on step by step, too, and not only on the far side of a narrow border. Where its
        // detail is so fine that nothing is alike over the whole way, it may still do so.
        const double first_step = correlation(without_broad(line_at(-off - apart)), without_broad(inside));
        double direct = correlation(inside, line_at(off)), finely = first_step;
        for (double out = -off; out + apart <= off; out += 1) {
            const std::vector<double> one = line_at(out), next = line_at(out + apart);
            direct = std::min(direct, correlation(one, next));
            finely = std::min(finely, correlation(without_broad(one), without_broad(next)));
        }
        most = std::max(most, direct);
        if (first_step > kStillAlike && apart < kMostApart * off) most = std::max(most, finely / first_step);
    }
    return most;
}

}  // namespace fogproof::registration
