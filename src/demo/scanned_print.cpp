// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A print of the demo's negative on its paper, cut in two, one half bleached, both laid askew on a flatbed
// beside the slip that was only fixed.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <vips/vips8>

#include "demo/demo.hpp"
#include "demo/film.hpp"
#include "demo/noise.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "scan/vips_session.hpp"

namespace fogproof::demo {
namespace {

constexpr double kLid = 0.06, kFullScale = 0.95;  // density of the lid; what a perfect white gives
constexpr double kSpot = 0.9, kNoise = 0.004;     // pixels of the scanner's lens; of the light, a pixel
constexpr double kLong = 1000, kTall = 1000 * kFrameTall / kFrameWide, kBorder = 45;  // frame, its border

// Mean transmittance of the frame over pixels about as large as the print's.
struct SmallFrame {
    int by, width, height;
    std::vector<double> light;

    explicit SmallFrame(const DemoNegative& scan)
        : by(std::max(1, int(scan.frame.width / kLong))),
          width(scan.frame.width / by),
          height(scan.frame.height / by) {
        for (int y = 0; y < height; ++y)
            for (int x = 0; x < width; ++x) {
                double sum = 0;
                for (int j = 0; j < by; ++j)
                    for (int i = 0; i < by; ++i)
                        sum += scan.codes[std::size_t(scan.frame.top + y * by + j) * std::size_t(scan.width) +
                                          std::size_t(scan.frame.left + x * by + i)];
                light.push_back(sum / (65535.0 * by * by));
            }
    }
    // At a place of the negative's frame, in its pixels.
    [[nodiscard]] double density(double x, double y) const {
        const double a = std::clamp(x / by - 0.5, 0.0, width - 1.001),
                     b = std::clamp(y / by - 0.5, 0.0, height - 1.001), c = a - std::floor(a);
        const double* above = &light[std::size_t(b) * std::size_t(width) + std::size_t(a)];
        const double* below = above + width;
        return -kBaseFog -
               std::log10(mix(mix(above[0], above[1], c), mix(below[0], below[1], c), b - std::floor(b)));
    }
};

// Density of a print for every negative's, told at even steps, and of its border.
struct Curve {
    static constexpr double kFirst = -0.3, kStep = 0.01;
    static constexpr int kCount = 300;
    double border;
    std::vector<double> densities{};

    Curve(const SmallFrame& frame, double bleach_s) {
        const Pack pack = true_paper();
        const PaperModel paper = paper_model(pack);
        const Enlarger& enlarger = pack.darkroom.enlarger;
        double passed = 0;
        for (const double light : frame.light)
            passed += std::pow(light * std::pow(10.0, kBaseFog), enlarger.callier);
        PrintSteps steps;
        steps.exposures = {{filter_for(pack, paper, kPrintFilter), Seconds{kPrintExposure}}};
        steps.develop = {kPrintRestrainer, kPrintDevelop, pack.development.nominal_c};
        steps.finishing.bleach_dose = bleach_dose(paper.bleach, pack.darkroom.bath, Seconds{bleach_s});
        const PrintModel model(paper, enlarger, steps, passed / double(frame.light.size()));
        border = model.border().density.value;
        for (int i = 0; i <= kCount; ++i)
            densities.push_back(model.patch({kFirst + i * kStep}).density.value);
    }
    [[nodiscard]] double at(double negative) const {
        const double place = std::clamp((negative - kFirst) / kStep, 0.0, kCount - 0.001);
        const auto i = std::size_t(place);
        return mix(densities[i], densities[i + 1], place - double(i));
    }
};

double srgb_code(double light) {  // IEC 61966-2-1
    light = std::clamp(light, 0.0, 1.0);
    return 255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055);
}

}  // namespace

DemoPrint demo_print(const DemoNegative& scan) {
    const SmallFrame frame(scan);
    const Curve unbleached(frame, 0), bleached(frame, kPrintBleach);
    DemoPrint print;
    std::vector<float> light(std::size_t(print.width) * std::size_t(print.height));
    for (int j = 0; j < print.height; ++j)
        for (int i = 0; i < print.width; ++i) {
            const Region& slip = kFixedSlip;
            double density = i >= slip.left - 10 && i < slip.left + slip.width + 10 && j >= slip.top - 10 &&
                                     j < slip.top + slip.height + 10
                                 ? kFixedDensity
                                 : kLid;
            for (const bool is_left : {true, false}) {
                const double turn = (is_left ? 1.2 : -0.9) * std::numbers::pi / 180,
                             x = i + 0.5 - (is_left ? 600 : 690), y = j + 0.5 - (is_left ? 398 : 404);
                const double u = x * std::cos(turn) + y * std::sin(turn),
                             v = y * std::cos(turn) - x * std::sin(turn);
                const Curve& curve = is_left ? unbleached : bleached;
                if ((u < 0) != is_left || std::abs(u) > kLong / 2 + kBorder ||
                    std::abs(v) > kTall / 2 + kBorder)
                    continue;
                density = std::abs(u) > kLong / 2 || std::abs(v) > kTall / 2
                              ? curve.border
                              : curve.at(frame.density((u / kLong + 0.5) * scan.frame.width,
                                                       (v / kTall + 0.5) * scan.frame.height));
            }
            light[std::size_t(j) * std::size_t(print.width) + std::size_t(i)] =
                float(kFullScale * std::pow(10.0, -density));
        }
    vips_ready();
    const vips::VImage sharp = vips::VImage::new_from_memory(light.data(), light.size() * sizeof(float),
                                                             print.width, print.height, 1, VIPS_FORMAT_FLOAT);
    const vips::VImage soft = sharp.gaussblur(kSpot).copy_memory();
    const auto* seen = static_cast<const float*>(soft.data());
    for (int j = 0; j < print.height; ++j)
        for (int i = 0; i < print.width; ++i)
            print.codes.push_back(std::uint8_t(
                std::lround(srgb_code(double(*seen++) * (1 + kNoise * normal_chance(i, j, 53))))));
    return print;
}

}  // namespace fogproof::demo
