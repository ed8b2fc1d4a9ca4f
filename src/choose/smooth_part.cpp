// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/smooth_part.hpp"

#include <algorithm>
#include <cmath>

namespace fogproof::choose {
namespace {

constexpr int kLongSide = 240;
constexpr double kLeastPart = 0.02, kMostPart = 0.5;  // of the frame; more is another exposure
constexpr std::size_t kMostParts = 3;
// Deviation of the bell curve that draws a rim, of the longer side: its rim is two and a half times as wide,
// a tenth, as a card leaves it that is kept moving. Judgement.
constexpr double kRim = 0.04;
constexpr float kNothing = 0.004F;  // of a level; nobody sees it and nobody works so far out

// Three means after one another are a bell curve but for a hair.
void meaned(std::vector<float>& values, int count, int apart, int lines, int next_line, int reach) {
    std::vector<float> line(std::size_t(count), 0.0F);
    for (int l = 0; l < lines; ++l) {
        float* const first = values.data() + std::ptrdiff_t(l) * next_line;
        const auto at = [&](int i) {
            return double(first[std::ptrdiff_t(std::clamp(i, 0, count - 1)) * apart]);
        };
        double sum = 0;
        for (int i = -reach; i <= reach; ++i) sum += at(i);
        for (int i = 0; i < count; ++i) {
            line[std::size_t(i)] = float(sum / (2 * reach + 1));
            sum += at(i + reach + 1) - at(i - reach);
        }
        for (int i = 0; i < count; ++i) first[std::ptrdiff_t(i) * apart] = line[std::size_t(i)];
    }
}

// Pixels that hang together, all of them marked as taken.
std::vector<std::size_t> joined(const std::vector<float>& values, int width, int height, float above,
                                std::vector<char>& taken, std::size_t first) {
    std::vector<std::size_t> part{first};
    taken[first] = 1;
    for (std::size_t next = 0; next < part.size(); ++next) {
        const int x = int(part[next] % std::size_t(width)), y = int(part[next] / std::size_t(width));
        const auto look = [&](int to_x, int to_y) {
            if (to_x < 0 || to_y < 0 || to_x >= width || to_y >= height) return;
            const auto at = std::size_t(to_y) * std::size_t(width) + std::size_t(to_x);
            if (taken[at] || values[at] <= above) return;
            taken[at] = 1;
            part.push_back(at);
        };
        look(x - 1, y), look(x + 1, y), look(x, y - 1), look(x, y + 1);
    }
    return part;
}

}  // namespace

SmallPlane made_small(const TonePlane& plane) {
    const double scale = std::min(1.0, double(kLongSide) / std::max(plane.width, plane.height));
    SmallPlane small{std::max(1, int(std::lround(plane.width * scale))),
                     std::max(1, int(std::lround(plane.height * scale))),
                     {}};
    std::vector<double> light(std::size_t(small.width) * std::size_t(small.height)), count(light.size());
    for (int y = 0; y < plane.height; ++y)
        for (int x = 0; x < plane.width; ++x) {
            const auto to = std::size_t(y * small.height / plane.height) * std::size_t(small.width) +
                            std::size_t(x * small.width / plane.width);
            const auto from = std::size_t(y) * std::size_t(plane.width) + std::size_t(x);
            light[to] += std::pow(10.0, -plane.density[from].value);
            count[to] += 1;
        }
    for (std::size_t i = 0; i < light.size(); ++i)
        small.density.push_back({-std::log10(light[i] / count[i])});
    return small;
}

std::vector<float> blurred(std::vector<float> values, int width, int height, double deviation) {
    const int reach = std::max(1, int(std::lround(deviation * std::max(width, height))));
    for (int round = 0; round < 3; ++round) {
        meaned(values, width, 1, height, width, reach);
        meaned(values, height, width, width, 1, reach);
    }
    return values;
}

std::vector<std::vector<float>> smooth_parts(const std::vector<float>& values, int width, int height,
                                             float above) {
    std::vector<char> taken(values.size(), 0);
    std::vector<std::vector<std::size_t>> parts;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (taken[i] || values[i] <= above) continue;
        auto part = joined(values, width, height, above, taken, i);
        const double share = double(part.size()) / double(values.size());
        if (share >= kLeastPart && share <= kMostPart) parts.push_back(std::move(part));
    }
    std::ranges::stable_sort(parts, std::ranges::greater{}, &std::vector<std::size_t>::size);
    if (parts.size() > kMostParts) parts.resize(kMostParts);
    std::vector<std::vector<float>> masks;
    for (const auto& part : parts) {
        std::vector<float> mask(values.size(), 0.0F);
        for (const std::size_t pixel : part) mask[pixel] = 1;
        mask = blurred(std::move(mask), width, height, kRim);
        const float most = *std::ranges::max_element(mask);
        for (float& level : mask) level = std::max(0.0F, (level / most - kNothing) / (1 - kNothing));
        masks.push_back(std::move(mask));
    }
    return masks;
}

}  // namespace fogproof::choose
