// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/grey_image.hpp"

#include <algorithm>
#include <cmath>

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
    std::vector<float> padded(std::size_t(image.width) + 2 * std::size_t(reach));
    for (int y = 0; y < image.height; ++y) {
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
    return out;
}

GreyImage blurred_along_columns(const GreyImage& image, const std::vector<float>& weights) {
    const int reach = int(weights.size()) - 1;
    GreyImage out(image.width, image.height);
    const auto row = [&image](int y) {
        return image.values.data() + std::ptrdiff_t(std::clamp(y, 0, image.height - 1)) * image.width;
    };
    for (int y = 0; y < image.height; ++y) {
        float* to = out.values.data() + std::ptrdiff_t(y) * image.width;
        const float* middle = row(y);
        for (int x = 0; x < image.width; ++x) to[x] = weights[0] * middle[x];
        for (int k = 1; k <= reach; ++k)
            add_both(row(y - k), row(y + k), weights[std::size_t(k)], to, image.width);
    }
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

GreyImage area_means(const GreyImage& image, double pixels) {
    struct Cell {
        int first;
        std::vector<float> shares;
    };
    const auto cells = [pixels](int length) {
        std::vector<Cell> all;
        for (int i = 0; i < int(length / pixels); ++i) {
            const double from = i * pixels, to = std::min(from + pixels, double(length));
            Cell& cell = all.emplace_back(int(from));
            for (int at = cell.first; at < to; ++at)
                cell.shares.push_back(float((std::min(at + 1.0, to) - std::max(double(at), from)) / pixels));
        }
        return all;
    };
    const std::vector<Cell> columns = cells(image.width), rows = cells(image.height);
    GreyImage means(int(columns.size()), int(rows.size()));
    for (int y = 0; y < means.height; ++y)
        for (int x = 0; x < means.width; ++x) {
            const Cell &row = rows[std::size_t(y)], &column = columns[std::size_t(x)];
            float sum = 0;
            for (std::size_t j = 0; j < row.shares.size(); ++j)
                for (std::size_t i = 0; i < column.shares.size(); ++i)
                    sum += row.shares[j] * column.shares[i] *
                           image.at(column.first + int(i), row.first + int(j));
            means.at(x, y) = sum;
        }
    return means;
}

GreyImage mirrored(const GreyImage& image) {
    GreyImage turned(image.width, image.height);
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x) turned.at(image.width - 1 - x, y) = image.at(x, y);
    return turned;
}

}  // namespace fogproof::registration
