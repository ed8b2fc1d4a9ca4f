// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/block_grid.hpp"

#include <algorithm>
#include <cmath>

#include "system/threads.hpp"

namespace fogproof::registration {

void compare(Block& block, const GreyImage& negative, const SeenFrame& seen) {
    double n = 0, sn = 0, ss = 0, snn = 0, sss = 0, sns = 0;
    block.inside = true;
    for (int y = block.top; y < block.bottom; ++y) {
        const std::size_t row = std::size_t(y) * std::size_t(negative.width);
        for (int x = block.left; x < block.right; ++x) {
            const std::size_t at = row + std::size_t(x);
            if (!seen.inside[at]) {
                block.inside = false;
                return;
            }
            const double a = double(negative.values[at]), b = double(seen.value.values[at]);
            n += 1, sn += a, ss += b, snn += a * a, sss += b * b, sns += a * b;
        }
    }
    block.negative_mean = sn / n, block.scan_mean = ss / n;
    const double nn = std::max(0.0, snn / n - block.negative_mean * block.negative_mean),
                 ssv = std::max(0.0, sss / n - block.scan_mean * block.scan_mean),
                 ns = sns / n - block.negative_mean * block.scan_mean;
    block.texture = std::sqrt(nn);
    block.gain = nn > 0 ? ns / nn : 0;
    block.likeness = nn > 0 && ssv > 0 ? ns / std::sqrt(nn * ssv) : 0;
    block.noise = std::sqrt(std::max(0.0, ssv - block.gain * ns));
}

std::vector<Block> blocks(const GreyImage& negative, const SeenFrame& seen, int side) {
    std::vector<Block> all;
    for (int y = 0; y + side <= negative.height; y += side)
        for (int x = 0; x + side <= negative.width; x += side) all.push_back({x, y, x + side, y + side});
    in_parallel(all.size(), [&](std::size_t i) { compare(all[i], negative, seen); });
    return all;
}

}  // namespace fogproof::registration
