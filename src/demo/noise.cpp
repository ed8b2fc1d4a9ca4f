// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/noise.hpp"

#include <array>
#include <cmath>

namespace fogproof::demo {
namespace {

struct Slope {
    double x, z;
};

const std::array<Slope, 64>& slopes() {
    static const auto table = [] {
        std::array<Slope, 64> made{};
        for (std::size_t i = 0; i < made.size(); ++i) {
            const double angle = 2 * 3.14159265358979323846 * double(i) / double(made.size());
            made[i] = {std::cos(angle), std::sin(angle)};
        }
        return made;
    }();
    return table;
}

}  // namespace

double normal_chance(std::int32_t x, std::int32_t y, std::uint32_t seed) {
    const std::uint32_t a = hashed(x, y, seed);
    const std::uint32_t b = a * 0x9E3779B1u + 0x7F4A7C15u;
    const double sum = double((a & 0xffff) + (a >> 16) + (b & 0xffff) + (b >> 16));
    return (sum * 0x1p-16 - 2) * 1.7320508075688772;  // four uniforms have variance 1/3
}

Jet noise(Jet x, Jet z, std::uint32_t seed) {
    const std::int32_t i = whole_below(x.v), j = whole_below(z.v);
    const double fx = x.v - i, fz = z.v - j;
    const auto& slope = slopes();
    const Slope a = slope[hashed(i, j, seed) >> 26], b = slope[hashed(i + 1, j, seed) >> 26];
    const Slope c = slope[hashed(i, j + 1, seed) >> 26], d = slope[hashed(i + 1, j + 1, seed) >> 26];
    const double va = a.x * fx + a.z * fz, vb = b.x * (fx - 1) + b.z * fz;
    const double vc = c.x * fx + c.z * (fz - 1), vd = d.x * (fx - 1) + d.z * (fz - 1);
    const double u = fx * fx * fx * (fx * (fx * 6 - 15) + 10), w = fz * fz * fz * (fz * (fz * 6 - 15) + 10);
    const double du = 30 * fx * fx * (fx - 1) * (fx - 1), dw = 30 * fz * fz * (fz - 1) * (fz - 1);
    const double twist = va - vb - vc + vd;
    const double v = va + u * (vb - va) + w * (vc - va) + u * w * twist;
    const double gx = a.x + u * (b.x - a.x) + w * (c.x - a.x) + u * w * (a.x - b.x - c.x + d.x) +
                      du * (vb - va + w * twist);
    const double gz = a.z + u * (b.z - a.z) + w * (c.z - a.z) + u * w * (a.z - b.z - c.z + d.z) +
                      dw * (vc - va + u * twist);
    return {v, gx * x.dx + gz * z.dx, gx * x.dz + gz * z.dz};
}

double noise(double x, double z, std::uint32_t seed) {
    const std::int32_t i = whole_below(x), j = whole_below(z);
    const double fx = x - i, fz = z - j;
    const auto& slope = slopes();
    const auto corner = [&](int di, int dj) {
        const Slope s = slope[hashed(i + di, j + dj, seed) >> 26];
        return s.x * (fx - di) + s.z * (fz - dj);
    };
    const double u = fx * fx * fx * (fx * (fx * 6 - 15) + 10), w = fz * fz * fz * (fz * (fz * 6 - 15) + 10);
    const double low = corner(0, 0) + u * (corner(1, 0) - corner(0, 0));
    const double high = corner(0, 1) + u * (corner(1, 1) - corner(0, 1));
    return low + w * (high - low);
}

}  // namespace fogproof::demo
