// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/working_curve.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "fogproof/print/print_steps.hpp"
#include "pack/doubted.hpp"
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

// What one pack says of a way of working. Many packs are asked, so its densities are quick ones. The range is
// not a number where there is none.
struct Answer {
    std::vector<double> density;
    double white, border, black, iso_range;
};

Answer answer_of(const Pack& pack, const Recipe& recipe) {
    const PaperModel paper = paper_model(pack);
    const Response response(paper, pack.darkroom.enlarger, unit_steps(pack, paper, recipe));
    Answer answer{{},
                  paper.sheet.white().value,
                  response.border().density.value,
                  response.maximum().value,
                  std::numeric_limits<double>::quiet_NaN()};
    std::vector<LogExposure> exposures;
    for (const double at : log_seconds()) exposures.push_back(exposure_of(at, pack.darkroom.enlarger));
    for (const PrintDensity density : response.quick_densities(exposures))
        answer.density.push_back(density.value);
    if (const auto numbers = response.numbers()) answer.iso_range = numbers->iso_range;
    return answer;
}

// 95 % of the black that a bleach finds: it can only take from it, however fast it works. Infinite where
// something puts silver or tone back.
double highest_unbleached(const Pack& pack, Recipe recipe, double scatter) {
    const bool is_only_bleached = recipe.toner == Toner::none && recipe.redevelop_s <= 0;
    if (!is_only_bleached) return std::numeric_limits<double>::infinity();
    recipe.bleach = Seconds{0};
    const Doubted<double> black(pack, [&](const Pack& moved) {
        const PaperModel paper = paper_model(moved);
        return Response(paper, moved.darkroom.enlarger, unit_steps(moved, paper, recipe)).maximum().value;
    });
    return black.likeliest() + kWithin95Percent * std::hypot(black.deviation(std::identity()), scatter);
}

}  // namespace

WorkingCurve working_curve(const Pack& pack, const Recipe& recipe) {
    const Doubted<Answer> asked(pack, [&](const Pack& moved) { return answer_of(moved, recipe); });
    const auto around = [&](double value, const auto& number, double scatter) {
        const double half = kWithin95Percent * std::hypot(asked.deviation(number), scatter);
        return Interval{value, std::max(0.0, value - half), value + half};
    };
    const auto interval = [&](const auto& number, double scatter) {
        return around(number(asked.likeliest()), number, scatter);
    };
    // What no constant explains comes on top of every density of a print.
    const double scatter = unexplained_scatter(pack, 0);
    const auto fog = [](const Answer& answer) { return answer.border - answer.white; };
    WorkingCurve curve{
        log_seconds(), {}, std::nullopt, interval(std::mem_fn(&Answer::white), 0), interval(fog, scatter)};
    // Every curve rises from its border to its black, so no band reaches past those of the two; nor past the
    // white of the sheet, and the black before the bleach.
    const double lowest =
                     std::max(interval(std::mem_fn(&Answer::border), scatter).low, curve.paper_white.low),
                 highest = std::min(interval(std::mem_fn(&Answer::black), scatter).high,
                                    highest_unbleached(pack, recipe, scatter));
    const PaperModel paper = paper_model(pack);
    const Response response(paper, pack.darkroom.enlarger, unit_steps(pack, paper, recipe));
    const std::vector<double>& likely = asked.likeliest().density;
    const auto rise_at = [&](std::size_t i) {
        const std::size_t from = i > 0 ? i - 1 : i, to = std::min(i + 1, kCurvePoints - 1);
        return (likely[to] - likely[from]) / (curve.log_seconds[to] - curve.log_seconds[from]) /
               pack.darkroom.enlarger.reciprocity;
    };
    for (std::size_t i = 0; i < kCurvePoints; ++i) {
        const double value =
            response.density(exposure_of(curve.log_seconds[i], pack.darkroom.enlarger)).value;
        const Interval at = around(
            value, [&](const Answer& answer) { return answer.density[i]; },
            unexplained_scatter(pack, rise_at(i)));
        curve.density.push_back({at.value, std::max(at.low, lowest), std::min(at.high, highest)});
    }
    if (std::isfinite(asked.likeliest().iso_range))
        curve.iso_range = interval(std::mem_fn(&Answer::iso_range), 0);
    return curve;
}

std::optional<PaperNumbers> working_numbers(const Pack& pack, const PaperModel& paper, const Recipe& recipe) {
    return Response(paper, pack.darkroom.enlarger, unit_steps(pack, paper, recipe)).numbers();
}

}  // namespace fogproof::print
