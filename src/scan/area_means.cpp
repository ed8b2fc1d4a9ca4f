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

std::vector<double> area_means(const Scan& scan, std::span<const double> values, PictureSize size) {
    const double area = double(scan.width()) / size.width * (double(scan.height()) / size.height);
    std::vector<double> means = cell_sums(*scan.pixels(), values, fractional_cells(scan.width(), size.width),
                                          fractional_cells(scan.height(), size.height), Counting::off)
                                    .sums;
    for (double& mean : means) mean /= area;
    return means;
}

}  // namespace fogproof::scan
