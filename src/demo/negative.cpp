// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From the scene through the lens and the film to the codes of the scan.
#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "demo/demo.hpp"
#include "demo/film.hpp"
#include "demo/noise.hpp"
#include "demo/scene.hpp"
#include "fogproof/base/error.hpp"
#include "system/progress.hpp"
#include "system/threads.hpp"

namespace fogproof::demo {
namespace {

constexpr double kLensSpot = 0.009;  // mm on the film; what is finer the lens does not draw
constexpr double kFocal = 38;  // mm; the camera is level, its board raised: columns of the picture are plumb
constexpr double kBoardRaised = 1.1;
constexpr double kVeil = 0.0012;  // light scattered in the lens, all over the frame
constexpr double kScannerBlack = 0.0003, kReadNoise = 2.5e-5, kShotNoise = 4e-4;

// Light that the lens throws on a line of the frame, told at places so far apart.
std::vector<double> light_on_line(double down, double apart) {
    std::vector<double> line;
    for (double x = -0.5 * kFrameWide; x < 0.5 * kFrameWide + 2 * apart; x += apart) {
        Sight sight{x / kFocal, (kBoardRaised - down) / kFocal, 1.3 * apart / kFocal};
        see_hut(sight);
        for (const auto see : {see_trees, see_meadow, see_wood, see_mountains_and_sky})
            if (!sight.ends()) see(sight);
        line.push_back(sight.light + kVeil);
    }
    return line;
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
                    decimal(kDemoSmallest, 1) + " to " + decimal(kDemoLargest, 0));
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

    const double pixel = 1 / scan.pixels_per_mm;
    WorkSteps steps("drawing the demo's negative", std::size_t(scan.height));
    const auto expose_row = [&](std::size_t row) {
        const int j = int(row);
        const double y = (j + 0.5) * pixel, apart = std::max(pixel, kLensSpot);
        std::vector<double> line;
        if (in_gate(0.5 * kScanWide, y, pixel) > 0) line = light_on_line(y - 0.5 * kScanTall, apart);
        for (int i = 0; i < scan.width; ++i) {
            const double x = (i + 0.5) * pixel, gate = in_gate(x, y, pixel);
            double density = 0;
            if (gate > 0) {
                const double at = std::max(0.0, x - kFrameLeft) / apart;
                const auto before = std::size_t(at);
                density = gate * developed_density(mix(line[before], line[before + 1], at - double(before)));
            }
            density += kBaseFog + grain(1000 * x, 1000 * y, 1000 * pixel, density);
            const double film = mix(std::pow(10.0, -density), 1.0, in_perforation(x, y, pixel));
            const double light = film * past_holder(x, y);
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
