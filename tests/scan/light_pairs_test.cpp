// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan made small for any print: the mean of what a cell's pixels reflect, from two lights of the cell.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>

#include "scan/light_pairs.hpp"
#include "support/examples.hpp"
#include "support/film_scan.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// What a print reflects at a log10 light: an S of the steepness of a hard paper.
double reflected(double light) {
    return std::pow(10.0, -(0.1 + 1.6 / (1 + std::exp(-9 * (light + 0.8)))));
}

constexpr double kThin = 0, kDense = 1.5;  // ends of the lights

// What it becomes on prints of many exposures, as a scan made small is tried on: a hard paper's.
TrialPrints trials() {
    const int steps = LightPairs::steps_between(-kDense, -kThin);
    std::vector<std::vector<float>> curves;
    for (double exposure = -0.6; exposure < 0.61; exposure += 0.03) {
        std::vector<float>& curve = curves.emplace_back();
        for (int i = 0; i < steps; ++i)
            curve.push_back(float(reflected(-kDense + i * LightPairs::kStep + exposure)));
    }
    return TrialPrints(curves);
}

// IEC 61966-2-1, codes of 8 bits.
double code_of(double light) {
    return 255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055);
}

LightPairs made_small(const std::function<double(int, int)>& density, int width, int height, int long_side,
                      const TrialPrints& prints = TrialPrints({})) {
    const TestFolder folder;
    const vips::VImage picture = raster<std::uint16_t>(
        width, height, 1,
        [&](int x, int y, int) { return std::round(65535 * std::pow(10.0, -density(x, y))); },
        VIPS_INTERPRETATION_GREY16);
    const std::string path = (folder / "scan.tif").string();
    picture.tiffsave(path.c_str());
    Notes notes;
    ScanOptions options;
    options.whole = true;
    options.clear_value = 1.0;
    const Scan scan = Scan::open(path, options, notes);
    Pack pack = examples::fogged_pack(0.3);
    pack.darkroom.enlarger.flare = 0;  // so that light and density are one
    pack.darkroom.enlarger.callier = 1;
    const Printing printing(pack, Tones(scan.histogram(), scan.scale()));
    return light_pairs(scan, printing, printing.light().log_light(NegativeDensity{kDense}),
                       printing.light().log_light(NegativeDensity{kThin}), long_side, prints);
}

double shown(const LightPairs& pairs, std::size_t i) {
    const double share = double(pairs.share[i]) / LightPairs::kShares,
                 apart = pairs.apart[i] * LightPairs::kApart;
    const auto light = [&](double step) { return pairs.darkest + step * LightPairs::kStep; };
    const double low = pairs.mean[i] - share * apart;
    return (1 - share) * reflected(light(low)) + share * reflected(light(low + apart));
}

// Pixels at random of 3 x 3 tones, each of its own; the page's promise, at exposures between the trial
// prints.
TEST(LightPairs, FinerOnesAreWithinACodeOfWhatTheirPixelsReflectAtEveryExposure) {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> tone(0.1, 1.4);
    constexpr int kSide = 40, kWithin = 3;
    std::vector<double> density;
    for (int i = 0; i < kSide * kSide * kWithin * kWithin; ++i) density.push_back(tone(random));
    const auto density_at = [&](int x, int y) { return density[std::size_t(y * kSide * kWithin + x)]; };
    const LightPairs coarse = made_small(density_at, kSide * kWithin, kSide * kWithin, kSide),
                     small = made_small(density_at, kSide * kWithin, kSide * kWithin, kSide, trials());
    EXPECT_TRUE(coarse.finer.at.empty());
    ASSERT_EQ(small.finer.at.size(), small.finer.lights.size());
    ASSERT_GT(small.finer.at.size(), std::size_t(kSide * kSide / 2)) << "nine tones are more than a pair";
    EXPECT_LT(small.worst, 0.7);
    std::size_t first = 0;
    double worst = 0;
    for (std::size_t k = 0; k < small.finer.at.size(); ++k) {
        const std::size_t at = small.finer.at[k];
        FinerPixel pixel;
        pixel.mean = small.mean[at];
        for (; pixel.others + 1 < small.finer.lights[k]; ++pixel.others, ++first) {
            pixel.above[pixel.others] = small.finer.above[first];
            pixel.shares[pixel.others] = small.finer.shares[first];
        }
        const FewLights few = lights_of(pixel, small.steps);
        for (double exposure = -0.59; exposure < 0.59; exposure += 0.047) {
            double told = 0, exact = 0;
            for (const SharedLight& light : few.all())
                told += light.share * reflected(small.darkest + light.light * LightPairs::kStep + exposure);
            for (int v = 0; v < kWithin; ++v)
                for (int u = 0; u < kWithin; ++u)
                    exact += reflected(exposure - density_at(kWithin * int(at % kSide) + u,
                                                             kWithin * int(at / kSide) + v)) /
                             (kWithin * kWithin);
            worst = std::max(worst, std::abs(code_of(told) - code_of(exact)));
        }
    }
    EXPECT_EQ(first, small.finer.above.size());
    EXPECT_LT(worst, 1);
}

TEST(LightPairs, OfAnEdgeBetweenTwoTonesAreThoseTones) {
    // Cells of 4 pixels, of which one column of two lies beyond the edge.
    const LightPairs small = made_small([](int x, int) { return x < 21 ? 0.2 : 1.1; }, 60, 40, 30);
    const Printing printing(examples::fogged_pack(0.3), examples::ordinary_frame());
    const std::size_t at = 10;  // columns 20 and 21
    const double share = double(small.share[at]) / LightPairs::kShares;
    EXPECT_NEAR(share, 0.5, 1e-9);
    EXPECT_NEAR(small.apart[at] * LightPairs::kApart * LightPairs::kStep, 0.9,
                LightPairs::kApart * LightPairs::kStep);
    EXPECT_EQ(small.apart[0], 0);
    EXPECT_EQ(small.apart[29], 0);
}

TEST(LightPairs, OfGrainReflectWhatItsPixelsReflect) {
    std::mt19937 random(3);
    std::normal_distribution<double> grain(0, 0.03);
    const int width = 120, height = 80;
    std::vector<double> density;
    for (int i = 0; i < width * height; ++i)
        density.push_back(std::clamp(0.2 + double(i % width) / width + grain(random), 0.0, 1.5));
    const LightPairs small = made_small([&](int x, int y) { return density[std::size_t(y * width + x)]; },
                                        width, height, width / 2);
    double worst = 0;
    for (int y = 0; y < height / 2; ++y)
        for (int x = 0; x < width / 2; ++x) {
            double exact = 0;
            for (const auto& [u, v] : {std::pair{0, 0}, {0, 1}, {1, 0}, {1, 1}})
                exact += reflected(-density[std::size_t((2 * y + v) * width + 2 * x + u)]) / 4;
            const double told = shown(small, std::size_t(y * (width / 2) + x));
            worst = std::max(worst, std::abs(std::cbrt(told) - std::cbrt(exact)) * 116);
        }
    EXPECT_LT(worst, 0.4) << "L*; a code of 8 bits is about that";
}

}  // namespace
}  // namespace fogproof::tests
