// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/tray_tables.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/interpolation.hpp"
#include "base/stop.hpp"

namespace fogproof::report {
namespace {

constexpr std::size_t kSamples = 4;  // red, green, blue, density
constexpr std::size_t kGreen = 1;    // papers are all but neutral: it tells of the others

// Of the tables' doses, none to the longest time. Between two of them it is the tones that move along the
// curve more than the curve that changes, so exposures lie closer.
constexpr std::size_t kTriedDoses[] = {0, 12, 20, 25, 28, 30, Tray::kDoses - 2};
// A light may become so many codes of 8 bits lighter or darker from one trial exposure to the next.
constexpr double kCodesApart = 20;

double linear_of(std::uint16_t code) {
    const double v = code / TrayScreen::kFull;
    return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

// The greatest change from one light to the next of the print that is not bleached.
double steepness(const Tray& tray, const TrayWay& way) {
    double most = 0;
    for (std::size_t i = 1; i < tray.lights; ++i)
        most = std::max(most, std::abs(way.colours[i].density - way.colours[i - 1].density));
    return most;
}

std::set<std::size_t> tried_ways(const Tray& tray) {
    const auto of = [&](std::size_t a, std::size_t b) {
        return steepness(tray, tray.ways[a]) < steepness(tray, tray.ways[b]);
    };
    std::size_t softest = 0, hardest = 0;
    for (std::size_t i = 1; i < tray.ways.size(); ++i) {
        if (of(i, softest)) softest = i;
        if (of(hardest, i)) hardest = i;
    }
    return {tray.marked, softest, hardest};
}

// How many trial exposures lie between the ends of the scale, the ends among them.
int exposures(const Tray& tray, std::span<const std::uint16_t> table) {
    const auto code = [&](std::size_t light) {
        const double v = table[kSamples * light + kGreen] / TrayScreen::kFull;
        return 255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1 / 2.4) - 0.055);
    };
    double steepest = 0;  // codes over a log10 of light
    for (std::size_t i = 1; i < tray.lights; ++i)
        steepest = std::max(steepest, std::abs(code(i) - code(i - 1)) / Tray::kLightStep);
    const double reach = 2 * Tray::kExposureReach * kLogPerStop * tray.reciprocity;
    return 1 + std::max(2, int(std::ceil(reach * steepest / kCodesApart)));
}

// As the page's script goes between entries.
std::vector<float> curve(const Tray& tray, std::span<const std::uint16_t> table, double stops, double step,
                         int steps) {
    std::vector<float> curve;
    const double first = kLogPerStop * tray.reciprocity * stops - tray.first_light + tray.darkest;
    for (int i = 0; i < steps; ++i) {
        const double place = (first + step * i) / Tray::kLightStep;
        const std::size_t x = std::size_t(std::clamp(std::floor(place), 1.0, double(tray.lights) - 3));
        const auto at = [&](std::size_t light) { return double(table[kSamples * light + kGreen]); };
        const double light = cubic_between(at(x - 1), at(x), at(x + 1), at(x + 2), place - double(x));
        curve.push_back(float(std::clamp(light / TrayScreen::kFull, 0.0, 1.0)));
    }
    return curve;
}

}  // namespace

TrayScreen::TrayScreen(Rendering rendering, const Lab& paper_white)
    : profile_(OutputProfile::named("srgb")), coder_(profile_, rendering, paper_white, 16) {}

void TrayScreen::put(std::vector<std::uint16_t>& to, std::span<const TrayColour> colours) const {
    std::vector<Lab> labs;
    for (const TrayColour& colour : colours) labs.push_back(colour.lab);
    const std::vector<std::uint16_t> codes = coder_.codes(labs);
    for (std::size_t i = 0; i < colours.size(); ++i) {
        for (std::size_t channel = 0; channel < 3; ++channel)
            to.push_back(std::uint16_t(std::lround(kFull * linear_of(codes[3 * i + channel]))));
        to.push_back(std::uint16_t(std::lround(1e4 * std::clamp(colours[i].density, 0.0, 6.5))));
    }
}

std::vector<double> TrayScreen::light(const Lab& lab) const {
    std::vector<double> light;
    for (const std::uint16_t code : coder_.codes({&lab, 1}))
        light.push_back(std::round(kFull * linear_of(code)));
    return light;
}

TrialPrints tray_trials(const Tray& tray, const TrayScreen& screen, double step, int steps) {
    std::vector<std::vector<float>> curves;
    for (const std::size_t way : tried_ways(tray))
        for (const std::size_t dose : kTriedDoses) {
            std::vector<std::uint16_t> table;
            screen.put(table, std::span(tray.ways[way].colours).subspan(dose * tray.lights, tray.lights));
            const int count = exposures(tray, table);
            for (int i = 0; i < count; ++i)
                curves.push_back(
                    curve(tray, table, Tray::kExposureReach * (2.0 * i / (count - 1) - 1), step, steps));
        }
    return TrialPrints(curves);
}

}  // namespace fogproof::report
