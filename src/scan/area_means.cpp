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

std::vector<std::vector<double>> area_means(const CodeSource& pixels, std::span<const AreaValues> wanted) {
    struct Cells {
        std::vector<Cell> columns, rows;
    };
    std::vector<Cells> cells;
    for (const auto& [values, size] : wanted)
        cells.push_back(
            {fractional_cells(pixels.width(), size.width), fractional_cells(pixels.height(), size.height)});
    std::vector<CellValues> summed;
    for (std::size_t i = 0; i < wanted.size(); ++i)
        summed.push_back({wanted[i].values, cells[i].columns, cells[i].rows});
    std::vector<std::vector<double>> means = cell_sums(pixels, summed);
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const PictureSize size = wanted[i].size;
        const double area = double(pixels.width()) / size.width * (double(pixels.height()) / size.height);
        for (double& mean : means[i]) mean /= area;
    }
    return means;
}

}  // namespace fogproof::scan
