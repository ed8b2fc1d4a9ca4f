// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Reading strips off drawn scans, whose densities are known because the test drew them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <iostream>

#include "fogproof/base/error.hpp"
#include "fogproof/calibrate/strip_reading.hpp"
#include "fogproof/render/reflection_scan.hpp"
#include "strip_scan.hpp"

namespace fogproof {
namespace {

using ::testing::HasSubstr;

// The promise of the command, for 8-bit scans too.
double allowed(double density) {
    return 0.02 + 0.01 * density;
}

StripScan one_wedge(unsigned seed) {
    std::mt19937 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    StripScan scan;
    scan.seed = seed;
    DrawnStrip strip;
    strip.degrees = between(-3, 3);
    strip.length = between(900, 1050), strip.width = between(110, 180);
    strip.y = between(190, 230);
    strip.white = between(0.08, 0.25);
    strip.densities =
        printed_wedge(21, 0.15, strip.white, between(1.6, 2.1), between(2, 4), between(1.2, 1.9));
    if (random() % 2 == 0) std::ranges::reverse(strip.densities);
    if (random() % 3 == 0) strip.margin = between(4, 20), strip.margin_density = strip.white;
    scan.strips.push_back(strip);
    scan.patches.push_back({{int(between(60, 900)), 370, 180, 90}, between(0.1, 0.3)});
    scan.fall_towards = between(0, 6.28);
    scan.noise = between(0.0005, 0.003);
    scan.lid = between(0.04, 0.10);
    return scan;
}

StripRequest request_for(const StripScan& scan, std::optional<int> steps) {
    StripRequest request;
    request.place = "scan";
    request.steps = steps;
    for (const auto& patch : scan.patches)
        request.known.push_back(
            {{patch.at.left + 12, patch.at.top + 12, patch.at.width - 24, patch.at.height - 24},
             patch.density});
    return request;
}

double worst_error(const StripReading& read, std::vector<double> truth) {
    std::ranges::sort(truth, std::greater<>());
    double worst = 0;
    for (const auto& step : read.steps) {
        const double error = std::abs(step.density.value - truth[std::size_t(step.step - 1)]);
        worst = std::max(worst, error / allowed(truth[std::size_t(step.step - 1)]));
    }
    return worst;
}

TEST(Campaign, All) {
    TestFolder folder;
    double worst = 0;
    for (unsigned seed = unsigned(std::getenv("FROM") ? std::atoi(std::getenv("FROM")) : 1); seed <= unsigned(std::getenv("TO") ? std::atoi(std::getenv("TO")) : 40); ++seed)
        for (const int kind : {0, 1}) {
            const StripScan scan = one_wedge(seed);
            const auto path = folder / (kind == 0 ? "s.tif" : "s.jpg");
            if (kind == 0)
                scan.linear().tiffsave(path.c_str());
            else
                scan.srgb().jpegsave(path.c_str(), vips::VImage::option()->set("Q", 85));
            Notes notes; if (std::getenv("KEEP")) scan.srgb().pngsave(std::getenv("KEEP"));
            try {
                const auto image = reflection_scan(path, {}, notes);
                const auto read = strips_read(image, request_for(scan, 21));
                const double e = worst_error(read.strips.at(0), scan.strips[0].densities);
                worst = std::max(worst, e);
                std::cout << seed << ' ' << kind << " strips " << read.strips.size() << " steps "
                          << read.strips[0].steps.size() << " worst " << e << (e > 1 ? " *****" : "") << '\n';
                if (e > 1)
                    for (const auto& s : read.strips[0].steps) {
                        auto t = scan.strips[0].densities;
                        std::ranges::sort(t, std::greater<>());
                        std::cout << s.step << ' ' << s.density.value << ' ' << t[s.step - 1] << '\n';
                    }
                if (e > 1 || std::getenv("TALK"))
                    for (auto& n : read.notes) std::cout << "   " << n << '\n';
            } catch (const Error& e) {
                std::cout << seed << ' ' << kind << " ERROR " << e.what() << '\n';
            }
        }
    std::cout << "worst " << worst << '\n';
}

}  // namespace
}  // namespace fogproof
