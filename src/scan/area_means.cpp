// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/area_means.hpp"

#include <algorithm>
#include <cmath>

#include "pixels/passes.hpp"

namespace fogproof::scan {

PictureSize reduced_size(const Scan& scan, int long_side) {
    const double scale = std::min(1.0, double(long_side) / std::max(scan.width(), scan.height()));
    return {std::max(1, int(std::lround(scan.width() * scale))),
            std::max(1, int(std::lround(scan.height() * scale)))};
}

std::vector<double> area_means(const CodeSource& pixels, std::span<const double> values, PictureSize size) {
    const double area = double(pixels.width()) / size.width * (double(pixels.height()) / size.height);
    std::vector<double> means = cell_sums(pixels, values, fractional_cells(pixels.width(), size.width),
                                          fractional_cells(pixels.height(), size.height), Counting::off)
                                    .sums;
    for (double& mean : means) mean /= area;
    return means;
}

}  // namespace fogproof::scan
