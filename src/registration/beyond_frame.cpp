// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/beyond_frame.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

namespace fogproof::registration {
namespace {

// Parts of the frame's longer side by which the lines lie off its edge, to either side. Frames are found to a
// pixel or two; a neighbouring picture of a series is off by more. Judgement.
constexpr double kOff = 0.008;
// A side may be reached by what is shown within so many times that: even ground at the rim does not tell, but
// the line inside is held against the negative.
constexpr double kReaches = 12;
constexpr double kLineBlur = 1.5;  // pixels
constexpr int kPlaces = 200, kFewestPlaces = 60;
// Standard deviation of a line that shows a picture, in values; and how nearly the line inside must be what
// the negative makes expect. A crop's edge, a border and a lid all lie along a side too. Judgement.
constexpr double kPictureLine = 0.015, kAsExpected = 0.6;

double correlation(const std::vector<double>& a, const std::vector<double>& b) {
    double sa = 0, sb = 0, saa = 0, sbb = 0, sab = 0;
    const auto n = double(a.size());
    for (std::size_t i = 0; i < a.size(); ++i)
        sa += a[i], sb += b[i], saa += a[i] * a[i], sbb += b[i] * b[i], sab += a[i] * b[i];
    const double va = saa / n - sa * sa / n / n, vb = sbb / n - sb * sb / n / n;
    if (va < kPictureLine * kPictureLine || vb < kPictureLine * kPictureLine) return 0;
    return (sab / n - sa * sb / n / n) / std::sqrt(va * vb);
}

}  // namespace

double continued_beyond(const FrameWarp& warp, const GreyImage& expected, const FramePart& shown,
                        const GreyImage& scan) {
    const FrameGrid grid{expected.width, expected.height};
    const double off = kOff * std::max(grid.width, grid.height), reach = kReaches * off;
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
    const auto look = [&](double x, double y) -> std::optional<double> {
        const auto [sx, sy] = warp.at(grid.place_of(x, y));
        if (!(sx >= 0 && sy >= 0) || !smooth.holds(int(sx), int(sy))) return std::nullopt;
        return double(smooth.at(int(sx), int(sy)));
    };
    double most = 0;
    for (const Side& side : sides) {
        if (side.gap > reach) continue;
        std::vector<double> inside, outside, asked;
        for (int i = 0; i < kPlaces; ++i) {
            const double t = 0.03 + 0.94 * i / (kPlaces - 1);
            const double x = side.x0 + t * (side.x1 - side.x0), y = side.y0 + t * (side.y1 - side.y0);
            const auto in = look(x - side.out_x, y - side.out_y), out = look(x + side.out_x, y + side.out_y);
            if (!in || !out) continue;
            inside.push_back(*in), outside.push_back(*out);
            asked.push_back(double(smooth_expected.at(std::clamp(int(x - side.out_x), 0, grid.width - 1),
                                                      std::clamp(int(y - side.out_y), 0, grid.height - 1))));
        }
        if (inside.size() < kFewestPlaces) continue;
        if (correlation(inside, asked) > kAsExpected) most = std::max(most, correlation(inside, outside));
    }
    return most;
}

}  // namespace fogproof::registration
