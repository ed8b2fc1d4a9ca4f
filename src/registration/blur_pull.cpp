// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/blur_pull.hpp"

namespace fogproof::registration {

BlurPull blur_pull_of(const Block& block, const GreyImage& negative, const SeenFrame& seen,
                      const BlurChanges& changes) {
    BlurPull sums;
    Eigen::Vector2d slopes = Eigen::Vector2d::Zero(), slopes_along = slopes;
    Blurs changed = Blurs::Zero(), changed_along = changed;
    double count = 0, squares = 0;
    for (int y = block.top; y < block.bottom; ++y)
        for (int x = block.left; x < block.right; ++x) {
            const double value = double(negative.at(x, y)) - block.negative_mean;
            const double miss = double(seen.value.at(x, y)) - block.scan_mean - block.gain * value;
            const Eigen::Vector2d slope(double(seen.along_x.at(x, y)), double(seen.along_y.at(x, y)));
            const Blurs change = block.gain * Blurs(double(changes[0].at(x, y)), double(changes[1].at(x, y)));
            sums.across += slope * change.transpose(), sums.squares += change * change.transpose();
            sums.pull += miss * change;
            slopes += slope, slopes_along += value * slope;
            changed += change, changed_along += value * change;
            count += 1, squares += value * value;
        }
    // What is left unexplained has no mean and nothing in common with the negative's values.
    sums.across -= slopes * changed.transpose() / count;
    sums.squares -= changed * changed.transpose() / count;
    if (squares > 0) {
        sums.across -= slopes_along * changed_along.transpose() / squares;
        sums.squares -= changed_along * changed_along.transpose() / squares;
    }
    return sums;
}

GreyImage with_blurs(const GreyImage& negative, const BlurChanges& changes, const Blurs& blurs) {
    GreyImage image = negative;
    for (std::size_t i = 0; i < image.values.size(); ++i)
        image.values[i] += float(blurs[0]) * changes[0].values[i] + float(blurs[1]) * changes[1].values[i];
    return image;
}

}  // namespace fogproof::registration
