// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/grey_image.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "pixels/cells.hpp"
#include "registration/row_bands.hpp"

namespace fogproof::registration {
namespace {

// Where a Gaussian is cut off, in standard deviations.
constexpr double kCutOff = 3.5;

// From the middle to one end; the other is the same.
std::vector<float> kernel(double sigma) {
    const int reach = std::max(1, int(std::ceil(kCutOff * sigma)));
    std::vector<float> weights;
    double sum = 0;
    for (int i = 0; i <= reach; ++i) {
        weights.push_back(float(std::exp(-0.5 * i * i / (sigma * sigma))));
        sum += (i == 0 ? 1 : 2) * double(weights.back());
    }
    for (float& weight : weights) weight = float(double(weight) / sum);
    return weights;
}

// Adds what lies equally far to either side, which weighs the same.
void add_both(const float* before, const float* after, float weight, float* out, int count) {
    for (int i = 0; i < count; ++i) out[i] += weight * (before[i] + after[i]);
}

GreyImage blurred_along_rows(const GreyImage& image, const std::vector<float>& weights) {
    const auto reach = std::ptrdiff_t(weights.size()) - 1;
    GreyImage out(image.width, image.height);
    in_row_bands(image.height, [&](int first, int last) {
        std::vector<float> padded(std::size_t(image.width) + 2 * std::size_t(reach));
        for (int y = first; y < last; ++y) {
            const float* row = image.values.data() + std::ptrdiff_t(y) * image.width;
            std::fill_n(padded.begin(), reach, row[0]);
            std::copy_n(row, image.width, padded.begin() + reach);
            std::fill(padded.begin() + reach + image.width, padded.end(), row[image.width - 1]);
            float* to = out.values.data() + std::ptrdiff_t(y) * image.width;
            for (int x = 0; x < image.width; ++x) to[x] = weights[0] * row[x];
            const float* middle = padded.data() + reach;
            for (std::ptrdiff_t k = 1; k <= reach; ++k)
                add_both(middle - k, middle + k, weights[std::size_t(k)], to, image.width);
        }
    });
    return out;
}

GreyImage blurred_along_columns(const GreyImage& image, const std::vector<float>& weights) {
    const int reach = int(weights.size()) - 1;
    GreyImage out(image.width, image.height);
    const auto row = [&image](int y) {
        return image.values.data() + std::ptrdiff_t(std::clamp(y, 0, image.height - 1)) * image.width;
    };
    in_row_bands(image.height, [&](int first, int last) {
        for (int y = first; y < last; ++y) {
            float* to = out.values.data() + std::ptrdiff_t(y) * image.width;
            const float* middle = row(y);
            for (int x = 0; x < image.width; ++x) to[x] = weights[0] * middle[x];
            for (int k = 1; k <= reach; ++k)
                add_both(row(y - k), row(y + k), weights[std::size_t(k)], to, image.width);
        }
    });
    return out;
}

}  // namespace

GreyImage blurred(const GreyImage& image, double sigma) {
    if (!(sigma > 0) || image.values.empty()) return image;
    const auto weights = kernel(sigma);
    return blurred_along_columns(blurred_along_rows(image, weights), weights);
}

GreyImage halved(const GreyImage& image) {
    GreyImage half(image.width / 2, image.height / 2);
    for (int y = 0; y < half.height; ++y)
        for (int x = 0; x < half.width; ++x)
            half.at(x, y) = (image.at(2 * x, 2 * y) + image.at(2 * x + 1, 2 * y) +
                             image.at(2 * x, 2 * y + 1) + image.at(2 * x + 1, 2 * y + 1)) /
                            4;
    return half;
}

GreyImage area_means(const GreyImage& image, int width, int height) {
    const auto mean = [](const Cell& cell, const auto& at) {
        double sum = 0, length = cell.end - cell.begin;
        for (int i = cell.begin; i < cell.end; ++i) sum += at(i);
        for (const auto& [pixel, share] :
             {std::pair{cell.lead, cell.lead_share}, {cell.tail, cell.tail_share}})
            if (share > 0) sum += share * at(pixel), length += share;
        return float(sum / length);
    };
    GreyImage narrow(width, image.height), means(width, height);
    const std::vector<Cell> columns = fractional_cells(image.width, width),
                            rows = fractional_cells(image.height, height);
    for (int y = 0; y < narrow.height; ++y)
        for (int x = 0; x < width; ++x)
            narrow.at(x, y) = mean(columns[std::size_t(x)], [&](int i) { return image.at(i, y); });
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            means.at(x, y) = mean(rows[std::size_t(y)], [&](int i) { return narrow.at(x, i); });
    return means;
}

}  // namespace fogproof::registration
