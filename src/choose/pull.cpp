// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/pull.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/words.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"

namespace fogproof::choose {
namespace {

constexpr std::size_t kNodes = 64;
constexpr int kSquaresAlongside = 10;

// As it lies in the bath: a toner comes later.
PrintModel after(const Printing& printing, const StartingPoint& point, double factor) {
    PrintSteps steps = point.proof.steps;
    steps.finishing.bleach_dose = bleach_dose(
        printing.paper().bleach, bleach_bath(printing.pack(), point.recipe), factor * point.proof.bleach);
    steps.finishing.redevelop = {0};
    return printing.print(steps);
}

}  // namespace

std::optional<Pull> moment_to_pull(const Printing& printing, const StartingPoint& point) {
    if (point.proof.steps.finishing.bleach_dose <= 0) return std::nullopt;
    const PrintModel early = after(printing, point, 1 / kPullFactor),
                     late = after(printing, point, kPullFactor);
    const double thinnest = printing.frame().quantile(0).value;
    const double step = std::max(printing.frame().quantile(1).value - thinnest, 0.01) / double(kNodes - 1);
    std::vector<double> density, gain;
    for (std::size_t i = 0; i < kNodes; ++i) {
        density.push_back(thinnest + double(i) * step);
        const NegativeDensity at{density.back()};
        gain.push_back(late.patch(at).lab.l - early.patch(at).lab.l);
    }
    const PrintModel right = after(printing, point, 1);
    return Pull{point.bleach_s, MonotoneCurve(std::move(density), std::move(gain)),
                late.border().lab.l - early.border().lab.l, right.fixed_only().lab.l - right.border().lab.l};
}

std::string TellingPlace::in_words() const {
    const auto span = [](double from, double to, const std::string& side) {
        return fixed(100 * from, 0) + " to " + fixed(100 * to, 0) + " % of the " + side;
    };
    return "the area from " + span(left, right, "width") + " and " + span(top, bottom, "height");
}

TellingPlace telling_place(const Pull& pull, int width, int height,
                           std::span<const NegativeDensity> densities) {
    const int side = std::max(1, std::max(width, height) / kSquaresAlongside);
    TellingPlace best{0, 0, 1, 1, 0};
    double best_score = -1e9;
    for (int top = 0; top == 0 || top + side <= height; top += std::max(1, side / 2))
        for (int left = 0; left == 0 || left + side <= width; left += std::max(1, side / 2)) {
            const int right = std::min(left + side, width), bottom = std::min(top + side, height);
            double sum = 0, square = 0;
            for (int y = top; y < bottom; ++y)
                for (int x = left; x < right; ++x) {
                    const auto at = std::size_t(y) * std::size_t(width) + std::size_t(x);
                    const double gain = pull.gain(densities[at].value);
                    sum += gain;
                    square += gain * gain;
                }
            const double count = double(right - left) * double(bottom - top), mean = sum / count;
            const double score = mean - std::sqrt(std::max(0.0, square / count - mean * mean));
            if (score <= best_score) continue;
            best_score = score;
            best = {double(left) / width, double(top) / height, double(right) / width,
                    double(bottom) / height, mean};
        }
    return best;
}

}  // namespace fogproof::choose
