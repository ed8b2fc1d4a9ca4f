// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <numbers>
#include <vector>

#include "reading/scanner_bed.hpp"

namespace fogproof::reading {
namespace {

// Judgement, in density: paper that differs less from the lid is not seen as paper.
constexpr double kStandsOut = 0.03;
constexpr int kFewestBlocks = 40;
// Single blocks at the rim of a place (shadows, dust) do not widen it.
constexpr double kStragglers = 0.004;

// Paper fills its rectangle; shadows, threads and noise do not.
constexpr double kFilled = 0.6;

using Block = std::pair<int, int>;

std::vector<std::vector<Block>> connected(const std::vector<bool>& stands_out, int width, int height) {
    std::vector<bool> left = stands_out;
    const auto index = [&](int x, int y) { return std::size_t(y) * std::size_t(width) + std::size_t(x); };
    std::vector<std::vector<Block>> all;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            if (!left[index(x, y)]) continue;
            std::vector<Block> blocks{{x, y}};
            left[index(x, y)] = false;
            for (std::size_t next = 0; next < blocks.size(); ++next) {
                const auto [bx, by] = blocks[next];
                for (const auto& [nx, ny] : {Block{bx + 1, by}, {bx - 1, by}, {bx, by + 1}, {bx, by - 1}}) {
                    if (nx < 0 || ny < 0 || nx >= width || ny >= height || !left[index(nx, ny)]) continue;
                    left[index(nx, ny)] = false;
                    blocks.emplace_back(nx, ny);
                }
            }
            if (blocks.size() >= kFewestBlocks) all.push_back(std::move(blocks));
        }
    return all;
}

// From the lowest to the highest, stragglers left aside.
std::pair<double, double> extent(std::vector<double>& along) {
    const auto spare = std::ptrdiff_t(kStragglers * double(along.size()));
    const auto low = along.begin() + spare, high = along.end() - 1 - spare;
    std::ranges::nth_element(along, low);
    const double lowest = *low;
    std::ranges::nth_element(along, high);
    return {lowest - 0.5, *high + 0.5};
}

StripPlace rectangle(const std::vector<Block>& blocks, int block, double degrees) {
    const double angle = degrees * std::numbers::pi / 180, c = std::cos(angle), s = std::sin(angle);
    std::vector<double> us, vs;
    for (const auto& [x, y] : blocks) {
        us.push_back((x + 0.5) * c + (y + 0.5) * s);
        vs.push_back((y + 0.5) * c - (x + 0.5) * s);
    }
    const auto [u0, u1] = extent(us);
    const auto [v0, v1] = extent(vs);
    const double u = (u0 + u1) / 2, v = (v0 + v1) / 2;
    return {block * (u * c - v * s), block * (u * s + v * c), angle, block * (u1 - u0), block * (v1 - v0)};
}

// The area grows from the right angle to both sides, so that the rough search ends next to it.
StripPlace smallest_rectangle(const std::vector<Block>& blocks, int block) {
    StripPlace best;
    double smallest = 1e300, at = 0;
    for (const auto& [reach, step] : {std::pair{45.0, 3.0}, {3.0, 0.5}, {0.5, 0.1}}) {
        const double middle = at;
        for (double degrees = middle - reach; degrees < middle + reach; degrees += step) {
            const StripPlace tried = rectangle(blocks, block, degrees);
            if (tried.length * tried.width >= smallest) continue;
            smallest = tried.length * tried.width;
            best = tried;
            at = degrees;
        }
    }
    return best;
}

}  // namespace

std::vector<StripPlace> places_on(const ScannerBed& bed, const CoarseImage& image) {
    const double threshold = std::max(kStandsOut, 5 * bed.noise);
    std::vector<bool> stands_out;
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x)
            stands_out.push_back(std::abs(image.at(x, y) - bed.density -
                                          bed.evenness.at((x + 0.5) * image.block, (y + 0.5) * image.block)) >
                                 threshold);
    std::vector<StripPlace> places;
    for (const auto& blocks : connected(stands_out, image.width, image.height)) {
        const StripPlace place = smallest_rectangle(blocks, image.block);
        const double filled =
            double(blocks.size()) * image.block * image.block / (place.length * place.width);
        if (filled >= kFilled) places.push_back(place);
    }
    return places;
}

}  // namespace fogproof::reading
