// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/working_curve.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "fogproof/print/print_steps.hpp"
#include "pack/uncertainty.hpp"
#include "print/response.hpp"

namespace fogproof::print {
namespace {

std::vector<double> log_seconds() {
    std::vector<double> points(kCurvePoints);
    // Whole twentieths, so that the file shows -2.95 and not its neighbour.
    for (std::size_t i = 0; i < points.size(); ++i)
        points[i] = (std::round(kFirstLogSeconds / kLogSecondsStep) + double(i)) / (1 / kLogSecondsStep);
    return points;
}

// What follows the densities at all points.
enum Further : std::size_t { white = kCurvePoints, fog, border, black, iso_range };

// Densities at all points, then the further ones; the range is not a number where there is none.
std::vector<double> answers(const Pack& pack, const Recipe& recipe) {
    const PaperModel paper = paper_model(pack);
    const Response response(paper, pack.enlarger, unit_steps(pack, paper, recipe));
    const double paper_white = paper.sheet.white().value, unexposed = response.border().density.value;
    std::vector<double> values;
    for (const double at : log_seconds())
        values.push_back(response.density(exposure_of(at, pack.enlarger)).value);
    values.push_back(paper_white);
    values.push_back(unexposed - paper_white);
    values.push_back(unexposed);
    values.push_back(response.maximum().value);
    const auto numbers = response.numbers();
    values.push_back(numbers ? numbers->iso_range : std::numeric_limits<double>::quiet_NaN());
    return values;
}

}  // namespace

WorkingCurve working_curve(const Pack& pack, const Recipe& recipe) {
    const PackAnswers ask = [&](const Pack& moved) { return answers(moved, recipe); };
    const std::vector<double> values = ask(pack), deviation = deviations(ask, pack);
    // What no constant explains comes on top of every density of a print.
    const double scatter = unexplained_scatter(pack);
    const auto interval = [&](std::size_t i) {
        const bool is_print = i < kCurvePoints || i == border || i == black || i == fog;
        const double half = kWithin95Percent * std::hypot(deviation[i], is_print ? scatter : 0);
        return Interval{values[i], std::max(0.0, values[i] - half), values[i] + half};
    };
    WorkingCurve curve{log_seconds(), {}, std::nullopt, interval(white), interval(fog)};
    // Every curve rises from its border to its black, so no band reaches past those of the two.
    const double lowest = interval(border).low, highest = interval(black).high;
    for (std::size_t i = 0; i < kCurvePoints; ++i) {
        const Interval at = interval(i);
        curve.density.push_back({at.value, std::max(at.low, lowest), std::min(at.high, highest)});
    }
    if (std::isfinite(values[iso_range])) curve.iso_range = interval(iso_range);
    return curve;
}

std::optional<PaperNumbers> working_numbers(const Pack& pack, const PaperModel& paper, const Recipe& recipe) {
    return Response(paper, pack.enlarger, unit_steps(pack, paper, recipe)).numbers();
}

}  // namespace fogproof::print
