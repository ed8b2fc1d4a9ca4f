// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/grid.hpp"

#include <array>

namespace fogproof::demo {
namespace {

struct Weights {
    std::array<double, 3> value, slope;
};

Weights weights(double t) {  // t in [-0.5, 0.5] from the middle point
    return {{0.5 * (0.5 - t) * (0.5 - t), 0.75 - t * t, 0.5 * (0.5 + t) * (0.5 + t)},
            {t - 0.5, -2 * t, t + 0.5}};
}

}  // namespace

Jet Grid::smooth(double px, double pz) const {
    const double gx = std::clamp((px - left) / cell, 0.0, columns - 1.0);
    const double gz = std::clamp((pz - near) / cell, 0.0, rows - 1.0);
    const int i = int(gx + 0.5), j = int(gz + 0.5);
    const Weights wx = weights(gx - i), wz = weights(gz - j);
    Jet sum{0, 0, 0};
    for (int b = 0; b < 3; ++b)
        for (int a = 0; a < 3; ++a) {
            const double h = at(i + a - 1, j + b - 1);
            const auto ua = std::size_t(a), ub = std::size_t(b);
            sum.v += h * wx.value[ua] * wz.value[ub];
            sum.dx += h * wx.slope[ua] * wz.value[ub] / cell;
            sum.dz += h * wx.value[ua] * wz.slope[ub] / cell;
        }
    return sum;
}

}  // namespace fogproof::demo
