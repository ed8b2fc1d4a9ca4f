// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/finer_lights.hpp"

#include <algorithm>
#include <cmath>

namespace fogproof::scan {
namespace {

// Distances in so many steps and shares in so many of their unit: the coarser, the less room they take.
struct Grain {
    int above, share;
};
constexpr double kHopeless = 2;  // times what is allowed: more lights are needed
constexpr Grain kGrains[] = {{8, 128}, {2, 32}, {1, 1}};

FinerPixel rounded(const std::vector<SharedLight>& points, int mean, const Grain& grain) {
    FinerPixel pixel;
    pixel.mean = mean;
    int left = FinerPixel::kShares;
    const auto whole = [](double value, int unit) { return int(std::lround(value / unit)) * unit; };
    for (std::size_t k = 1; k < points.size(); ++k) {
        const int share = std::clamp(whole(points[k].share * FinerPixel::kShares, grain.share), 0, left);
        pixel.above[pixel.others] = std::uint16_t(whole(points[k].light - points[k - 1].light, grain.above));
        pixel.shares[pixel.others++] = std::uint16_t(share);
        left -= share;
    }
    return pixel;
}

// The same with one of its numbers changed; false where that cannot be.
bool change(FinerPixel& pixel, std::size_t what, int by, int steps) {
    if (what == 0) {
        pixel.mean += by;
        return pixel.mean >= 0 && pixel.mean < steps;
    }
    auto& values = what <= pixel.others ? pixel.shares : pixel.above;
    auto& value = values[(what - 1) % pixel.others];
    if (value + by < 0 || value + by > 65535) return false;
    value = std::uint16_t(value + by);
    int shares = 0;
    for (std::size_t k = 0; k < pixel.others; ++k) shares += pixel.shares[k];
    return shares <= FinerPixel::kShares;
}

// Gauss keeps moments; what counts is how far off the print is where it is most. So a pixel is moved about,
// number by number in ever smaller steps, as long as that helps.
void move(FinerPixel& pixel, const Grain& grain, CellTrial& trial, int steps, double limit) {
    constexpr int kRounds = 3;
    int step = 2;
    for (int round = 0; round < kRounds && step > 0 && pixel.off < kHopeless * limit; ++round) {
        const double before = pixel.off;
        for (std::size_t what = 0; what <= 2 * pixel.others; ++what)
            for (const int by : {step, -step}) {
                const int unit = what == 0 ? 1 : what <= pixel.others ? grain.share : grain.above;
                FinerPixel next = pixel;
                if (!change(next, what, by * unit, steps)) continue;
                next.off = trial.off(lights_of(next, steps).all(), pixel.off);
                if (next.off >= pixel.off) continue;
                pixel = next;
                if (pixel.off <= limit) return;
                break;
            }
        if (pixel.off > 0.97 * before) step /= 2;
    }
}

}  // namespace

FewLights lights_of(const FinerPixel& pixel, int steps) {
    int over_darkest = 0, weighed = 0, left = FinerPixel::kShares;
    for (std::size_t k = 0; k < pixel.others; ++k) {
        over_darkest += pixel.above[k];
        weighed += pixel.shares[k] * over_darkest;
        left -= pixel.shares[k];
    }
    int light = std::max(pixel.mean - (weighed + FinerPixel::kShares / 2) / FinerPixel::kShares, 0);
    FewLights few{};
    few.lights[few.count++] = {double(light), double(left) / FinerPixel::kShares};
    for (std::size_t k = 0; k < pixel.others; ++k) {
        light = std::min(light + pixel.above[k], steps - 1);
        few.lights[few.count++] = {double(light), double(pixel.shares[k]) / FinerPixel::kShares};
    }
    return few;
}

FinerPixel finer_pixel(const std::vector<SharedLight>& all, CellTrial& trial, int mean, int steps,
                       double limit) {
    constexpr double kAny = 1e9;
    const LightQuadrature quadrature(all);
    FinerPixel best;
    best.off = kAny;
    for (std::size_t count = std::min<std::size_t>(2, quadrature.most()); count <= quadrature.most();
         ++count) {
        const std::vector<SharedLight> points = quadrature.points(count);
        for (const Grain& grain : kGrains) {
            FinerPixel pixel = rounded(points, mean, grain);
            pixel.off = trial.off(lights_of(pixel, steps).all(), kHopeless * limit);
            if (pixel.off > limit) move(pixel, grain, trial, steps, limit);
            if (pixel.off < best.off) best = pixel;
            if (best.off <= limit) return best;
        }
    }
    best.off = trial.off(lights_of(best, steps).all(), kAny);
    return best;
}

void FinerLights::append(std::size_t pixel_at, const FinerPixel& pixel) {
    at.push_back(std::uint32_t(pixel_at));
    lights.push_back(std::uint8_t(pixel.others + 1));
    for (std::size_t k = 0; k < pixel.others; ++k) {
        above.push_back(pixel.above[k]);
        shares.push_back(pixel.shares[k]);
    }
}

void FinerLights::append(const FinerLights& other) {
    const auto add = [](auto& to, const auto& from) { to.insert(to.end(), from.begin(), from.end()); };
    add(at, other.at);
    add(lights, other.lights);
    add(above, other.above);
    add(shares, other.shares);
}

}  // namespace fogproof::scan
