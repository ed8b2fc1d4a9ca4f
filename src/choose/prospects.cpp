// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/prospects.hpp"

#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <optional>

#include "fit/draws_as_read.hpp"
#include "fogproof/sheet/colour.hpp"
#include "pack/uncertainty.hpp"
#include "system/threads.hpp"

namespace fogproof::choose {
namespace {

// Half the 95 % interval of one more value, in deviations of those seen: Student's t.
double half_of_95_percent(std::size_t seen) {
    if (seen < 2) return 0;
    const boost::math::students_t t(double(seen - 1));
    return quantile(t, 0.975) * std::sqrt(1 + 1 / double(seen));
}

// Mean and deviation of what a function says of every draw.
struct Spread {
    double mean, deviation;
};
template <class Value>
Spread spread_of(std::size_t count, const Value& value) {
    double sum = 0, square = 0;
    for (std::size_t i = 0; i < count; ++i) sum += value(i);
    const double mean = sum / double(count);
    for (std::size_t i = 0; i < count; ++i) square += std::pow(value(i) - mean, 2);
    return {mean, count > 1 ? std::sqrt(square / double(count - 1)) : 0};
}

// Distances are never negative and lean to the far side: normal in the logarithm.
Interval distances(std::size_t count, const auto& distance) {
    constexpr double kLeast = 1e-3;  // L*
    const double expected = spread_of(count, distance).mean;
    const Spread logs =
        spread_of(count, [&](std::size_t i) { return std::log(std::max(distance(i), kLeast)); });
    const double half = half_of_95_percent(count) * logs.deviation;
    return {expected, std::min(std::exp(logs.mean - half), expected),
            std::max(std::exp(logs.mean + half), expected)};
}

double density_of_lightness(double lightness) {
    constexpr double kDarkest = 0.1;  // L*
    return -std::log10(xyz({std::max(lightness, kDarkest), 0, 0}).y);
}

Prospect prospect_of(const std::vector<std::vector<Outcome>>& outcomes, std::size_t recipe) {
    Prospect prospect;
    prospect.first_sheet =
        distances(outcomes.size(), [&](std::size_t draw) { return outcomes[draw][recipe].first_sheet; });
    for (std::size_t step = 0; step < kStripSteps.size(); ++step)
        prospect.after_strip[step] = spread_of(outcomes.size(), [&](std::size_t draw) {
                                         return outcomes[draw][recipe].after_strip[step];
                                     }).mean;
    return prospect;
}

}  // namespace

double rank(const Prospect& prospect) {
    constexpr std::size_t kThirds = 2;
    static_assert(kStripSteps[kThirds] == 1.0 / 3);
    return (prospect.first_sheet.value + prospect.after_strip[kThirds]) / 2;
}

Prospects::Prospects(const Printing& printing, const Wanted& wanted, std::size_t draws, std::uint64_t set,
                     std::size_t tones)
    : printing_(printing),
      read_(printing.pack()),
      likely_({printing.pack(), 0, 0, 0}, printing, gathered(wanted, tones), read_, std::nullopt) {
    const Wanted few = gathered(wanted, tones);
    auto drawn = draws_as_read(printing.pack(), draws, set);
    papers_.resize(draws);
    const std::optional<TodaysLight>& today = printing.today();
    double seen = 0;  // L* of the strip's tone
    if (today) seen = likely_.print(today->strip, std::array{likely_.light().log_light(today->tone)}).front();
    in_parallel(draws, [&](std::size_t i) {
        papers_[i] =
            std::make_unique<DrawnPaper>(std::move(drawn[i]), printing, few, read_, likely_.speed_point());
        if (today) papers_[i]->stand_in(*today, seen);
    });
}

std::vector<std::vector<Outcome>> Prospects::outcomes(std::span<const ToldRecipe> recipes,
                                                      std::size_t draws) {
    std::vector<std::vector<Outcome>> all(draws);
    in_parallel(draws, [&](std::size_t draw) {
        for (const ToldRecipe& recipe : recipes) all[draw].push_back(papers_[draw]->outcome(recipe));
    });
    return all;
}

std::vector<Prospect> Prospects::of(std::span<const ToldRecipe> recipes, std::size_t draws) {
    if (recipes.empty()) return {};
    const auto all = outcomes(recipes, draws);
    std::vector<Prospect> prospects;
    for (std::size_t i = 0; i < recipes.size(); ++i) prospects.push_back(prospect_of(all, i));
    return prospects;
}

std::vector<Prospects::Told> Prospects::told(std::span<const ToldRecipe> recipes,
                                             std::span<const std::optional<double>> shares) {
    const auto all = outcomes(recipes, papers_.size());
    const double sheet = printing_.pack().sheet_scatter;
    const PrintDensity scatter{std::hypot(printing_.pack().law_scatter, sheet)};
    const double light = kSheetInLight * sheet / printing_.pack().darkroom.enlarger.reciprocity;
    std::vector<Told> told;
    for (std::size_t i = 0; i < recipes.size(); ++i) {
        // By how much a sheet that no number of the pack explains wants another time.
        const double exposure = likely_.outcome(recipes[i]).right_log_s;
        const double other_exposure = likely_.outcome(recipes[i], scatter).right_log_s - exposure;
        const double bleach = likely_.log_bleach_s(recipes[i], shares[i]);
        const double other_bleach = likely_.log_bleach_s(recipes[i], shares[i], scatter) - bleach;
        double exposures = 0, bleaches = 0;
        for (std::size_t draw = 0; draw < papers_.size(); ++draw) {
            exposures += std::pow(all[draw][i].right_log_s - exposure, 2) / double(papers_.size());
            bleaches += std::pow(papers_[draw]->log_bleach_s(recipes[i], shares[i]) - bleach, 2) /
                        double(papers_.size());
        }
        told.push_back({prospect_of(all, i),
                        {std::hypot(std::sqrt(exposures), other_exposure, light),
                         std::hypot(std::sqrt(bleaches), other_bleach)}});
    }
    return told;
}

TargetDoubt Prospects::target() const {
    const auto half = [&](double share) {
        const NegativeDensity at = printing_.frame().quantile(share);
        return kWithin95Percent * spread_of(papers_.size(), [&](std::size_t draw) {
                                      return papers_[draw]->fresh_lightness(at);
                                  }).deviation;
    };
    return {half(kThinEnd), half(0.5), half(kDenseEnd)};
}

std::vector<std::vector<double>> Prospects::misses(const ToldRecipe& recipe) {
    std::vector<std::vector<double>> all;
    for (const auto& paper : papers_) all.push_back(paper->misses(recipe));
    return all;
}

std::vector<double> Prospects::likely_misses(const ToldRecipe& recipe) {
    return likely_.misses(recipe);
}

std::vector<double> Prospects::first_sheets(const ToldRecipe& recipe) {
    std::vector<double> first;
    for (const auto& outcome : outcomes({&recipe, 1}, papers_.size()))
        first.push_back(outcome.front().first_sheet);
    return first;
}

std::vector<std::vector<double>> Prospects::densities(const ToldRecipe& recipe,
                                                      std::span<const LitPlace> places) {
    std::vector<std::vector<double>> all;
    for (const auto& paper : papers_) {
        std::vector<double> log_light;
        for (const auto& [density, negative] : places)
            log_light.push_back(negative ? paper->light().log_light(density) : -density.value);
        std::vector<double> read = paper->print(recipe, log_light);
        for (double& value : read) value = density_of_lightness(value);
        all.push_back(std::move(read));
    }
    return all;
}

}  // namespace fogproof::choose
