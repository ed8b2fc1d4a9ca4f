// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From the picture in the lens to the codes of the scan.
#include <algorithm>
#include <array>
#include <cmath>

#include "base/words.hpp"
#include "demo/demo.hpp"
#include "demo/film.hpp"
#include "demo/noise.hpp"
#include "demo/picture.hpp"
#include "demo/strip.hpp"
#include "demo/vec.hpp"
#include "fogproof/base/error.hpp"
#include "system/progress.hpp"
#include "system/threads.hpp"

namespace fogproof::demo {
namespace {

using namespace demo;

constexpr int kWidestPicture = 3000, kTaps = 7;
constexpr double kPictureFiner = 1.25;  // picture pixels for one of the scan: soft, even outlines
constexpr double kLensBlur = 0.007;     // mm on the film, deviation of a Gauss spot
constexpr double kVeil = 0.004;         // light scattered in the lens, all over the frame
constexpr double kScannerBlack = 0.0003, kReadNoise = 2.5e-5, kShotNoise = 4e-4;

// Weights of the picture's points around one place on the film.
struct Spot {
    int first;
    std::array<double, kTaps> weight;
};

std::vector<Spot> spots(int count, double pixels_per_mm, double start, double length, int points) {
    std::vector<Spot> made(std::size_t(count), Spot{});
    const double point = length / points, scan = 1 / pixels_per_mm;
    // The lens, the scanner's own aperture, and at least enough to hide the points of the picture.
    const double blur = std::max(std::sqrt(kLensBlur * kLensBlur + 0.1 * scan * scan), 0.62 * point) / point;
    for (int i = 0; i < count; ++i) {
        const double at = ((i + 0.5) * scan - start) / point - 0.5;
        Spot& spot = made[std::size_t(i)];
        spot.first = int(std::floor(at + 0.5)) - kTaps / 2;
        double sum = 0;
        for (int k = 0; k < kTaps; ++k) {
            const double away = (spot.first + k - at) / blur;
            sum += spot.weight[std::size_t(k)] = std::exp(-0.5 * away * away);
        }
        for (double& w : spot.weight) w /= sum;
    }
    return made;
}

double seen(const Picture& picture, const Spot& across, const Spot& down) {
    double sum = 0;
    for (int b = 0; b < kTaps; ++b) {
        const int y = std::clamp(down.first + b, 0, picture.height - 1);
        double row = 0;
        for (int a = 0; a < kTaps; ++a)
            row += across.weight[std::size_t(a)] *
                   picture.at(std::clamp(across.first + a, 0, picture.width - 1), y);
        sum += down.weight[std::size_t(b)] * row;
    }
    return sum;
}

// Light on the film in the frame: the lens darkens towards the corners.
double falloff(double x, double y) {
    constexpr double focal = 38;
    const double dx = (x - 0.5 * kScanWide) / focal, dy = (y - 0.5 * kScanTall) / focal;
    return 1 / (1 + dx * dx + dy * dy);
}

// Share of a pixel inside the film gate.
double in_gate(double x, double y, double pixel) {
    const double depth = std::min(0.5 * kFrameWide - std::abs(x - 0.5 * kScanWide),
                                  0.5 * kFrameTall - std::abs(y - 0.5 * kScanTall));
    return std::clamp(0.5 + depth / pixel, 0.0, 1.0);
}

}  // namespace

void refuse_demo_size(double megapixels) {
    if (!(megapixels >= kDemoSmallest && megapixels <= kDemoLargest))
        throw Error(Fault::usage, "megapixels", decimal(megapixels, 3),
                    decimal(kDemoSmallest, 1) + " to " + decimal(kDemoLargest, 0) + " are allowed");
}

DemoNegative demo_negative(double megapixels, unsigned threads) {
    refuse_demo_size(megapixels);
    DemoNegative scan;
    scan.pixels_per_mm = std::sqrt(megapixels * 1e6 / (kScanWide * kScanTall));
    const auto pixels = [&](double mm) { return int(std::lround(mm * scan.pixels_per_mm)); };
    scan.width = pixels(kScanWide);
    scan.height = pixels(kScanTall);
    scan.frame.left = pixels(kFrameLeft);
    scan.frame.top = pixels(kFrameTop);
    scan.frame.width = pixels(kFrameLeft + kFrameWide) - scan.frame.left;
    scan.frame.height = pixels(kFrameTop + kFrameTall) - scan.frame.top;
    scan.codes.resize(std::size_t(scan.width) * std::size_t(scan.height));

    const int wide = std::min(kWidestPicture, int(kPictureFiner * scan.frame.width));
    const Picture picture = photographed(wide, threads);
    double mean = 0;
    for (const float light : picture.luminance) mean += light;
    const double veil = kVeil * mean / double(picture.luminance.size());

    const double pixel = 1 / scan.pixels_per_mm;
    const auto across = spots(scan.width, scan.pixels_per_mm, kFrameLeft, kFrameWide, picture.width);
    const auto down = spots(scan.height, scan.pixels_per_mm, kFrameTop, kFrameTall, picture.height);
    const Grain grain(1000 * pixel);
    const Dust dust;
    WorkSteps steps("drawing the demo's negative", std::size_t(scan.height));
    const auto expose_row = [&](std::size_t row) {
        const int j = int(row);
        const double y = (j + 0.5) * pixel;
        const Dust here = dust.near_row(y);
        for (int i = 0; i < scan.width; ++i) {
            const double x = (i + 0.5) * pixel;
            const double gate = in_gate(x, y, pixel);
            double density = 0;
            if (gate > 0) {
                const double light =
                    seen(picture, across[std::size_t(i)], down[std::size_t(j)]) * falloff(x, y);
                density = gate * developed_density(light + veil);
            }
            density += kBaseFog + grain.at(1000 * x, 1000 * y, density);
            const double hole = in_perforation(x, y, pixel);
            double light = mix(std::pow(10.0, -density), 1.0, hole);
            light *= past_holder(x, y) * here.past(x, y, pixel);
            const double noise = normal_chance(i, j, 977) * (kReadNoise + kShotNoise * std::sqrt(light));
            const double read = kScannerBlack + (1 - kScannerBlack) * light + noise;
            scan.codes[std::size_t(j) * std::size_t(scan.width) + std::size_t(i)] =
                std::uint16_t(std::lround(65535 * std::clamp(read, 0.0, 1.0)));
        }
        steps.done();
    };
    in_parallel(std::size_t(scan.height), expose_row, threads);
    return scan;
}

}  // namespace fogproof::demo
