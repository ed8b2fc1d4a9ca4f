// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/strip_labels.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "reading/light_density.hpp"

namespace fogproof::reading {
namespace {

// Judgement, in density: what neighbouring readings may run against the trend and still count as equal.
constexpr double kReadingNoise = 0.03;

// step counts from 1, the darkest.
void label_step(Reading& row, const StripLabels& labels, int step) {
    if (labels.wedge)
        row.wedge_density = to_thousandths(labels.wedge->start + labels.wedge->increment * (step - 1));
    if (!labels.exposures.empty()) {
        std::vector<double> longest_first = labels.exposures;
        std::ranges::sort(longest_first, std::greater<>());
        row.exposure_s = longest_first.at(std::size_t(step - 1));
    }
}

void add_rows(std::vector<Reading>& rows, const std::vector<StepReading>& steps, const StripLabels& labels,
              const Reading& common) {
    for (const StepReading& step : steps) {
        Reading row = common;
        label_step(row, labels, step.step);
        row.density = to_thousandths(step.density.value);
        rows.push_back(std::move(row));
    }
}

std::optional<std::vector<double>> numbers_in(std::string_view text) {
    std::string spaced(text);
    std::ranges::replace(spaced, ',', ' ');
    std::vector<double> numbers;
    for (const auto& part : split(spaced, ' ')) {
        if (part.empty()) continue;
        const auto number = number_in(part);
        if (!number) return std::nullopt;
        numbers.push_back(*number);
    }
    return numbers;
}

bool has_wedge_density(const Reading& row) {
    return row.wedge_density.has_value();
}

bool has_exposure(const Reading& row) {
    return row.exposure_s.has_value();
}

}  // namespace

std::optional<StepWedge> step_wedge_in(std::string_view text) {
    const auto numbers = numbers_in(text);
    if (!numbers || numbers->size() != 3) return std::nullopt;
    const auto& n = *numbers;
    const bool good = n[0] >= 0 && n[0] <= 4 && n[1] > 0 && n[1] <= 1 && n[2] >= 2 && n[2] <= kMostSteps &&
                      n[2] == int(n[2]);
    return good ? std::optional(StepWedge{n[0], n[1], int(n[2])}) : std::nullopt;
}

std::optional<std::vector<double>> band_seconds_in(std::string_view text) {
    auto seconds = numbers_in(text);
    const bool good = seconds && seconds->size() >= 2 && seconds->size() <= std::size_t(kMostSteps) &&
                      std::ranges::all_of(*seconds, [](double each) { return each >= 0; });
    return good ? seconds : std::nullopt;
}

std::vector<Reading> labelled(const StripReading& strip, const StripLabels& labels) {
    std::vector<Reading> rows;
    if (strip.bleached.empty()) {
        add_rows(rows, strip.steps, labels, labels.common);
        return rows;
    }
    Reading before = labels.common, after = labels.common;
    before.strip += "-before", after.strip += "-bleached";
    before.bleach_s = before.redevelop_s = 0, before.bleach_parts.reset();
    add_rows(rows, strip.steps, labels, before);
    add_rows(rows, strip.bleached, labels, after);
    return rows;
}

std::vector<Reading> with_steps(std::vector<Reading> rows, const StripLabels& labels,
                                const std::string& place) {
    const std::size_t steps = labels.wedge ? std::size_t(labels.wedge->steps) : labels.exposures.size();
    if (steps == 0) return rows;
    if (rows.size() != steps)
        throw Error(Fault::data, place, std::to_string(rows.size()) + " readings",
                    std::to_string(steps) + ", one for each step told");
    for (const auto& [is_told, column, option] :
         {std::tuple{labels.wedge && std::ranges::any_of(rows, &has_wedge_density), "wedge_density",
                     "--wedge"},
          std::tuple{!labels.exposures.empty() && std::ranges::any_of(rows, &has_exposure), "exposure_s",
                     "--exposures"}})
        if (is_told)
            throw Error(Fault::data, place, std::string("tells ") + column + " of its own rows",
                        std::string("a file without that column, or no ") + option);
    const bool darkens = rows.back().density > rows.front().density;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (i > 0 && (rows[i].density - rows[i - 1].density) * (darkens ? 1 : -1) < -kReadingNoise)
            throw Error(Fault::data, place,
                        "reading " + std::to_string(i + 1) + " (" + fixed(rows[i].density, 2) +
                            ") breaks the order of the others",
                        "densities from dark to light or from light to dark");
        label_step(rows[i], labels, int(darkens ? rows.size() - i : i + 1));
    }
    return rows;
}

}  // namespace fogproof::reading
