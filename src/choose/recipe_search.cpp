// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/choose/recipe_search.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "fogproof/pack/grades.hpp"
#include "fogproof/print/clearing.hpp"
#include "fogproof/print/print_steps.hpp"

namespace fogproof {
namespace {

constexpr double kThirdStop = 0.1;
constexpr double kDarker = 1.2, kLighter = 0.6;  // log10 over and under the fresh print's exposure
constexpr std::size_t kDepths = 24;

DevelopStep step_of(const Pack& pack, double restrainer_ml_l) {
    return {restrainer_ml_l, pack.development.nominal_s, pack.development.nominal_c};
}

double most_clearing_dose(const Easel& easel) {
    return clearing_dose(easel.paper(), step_of(easel.pack(), 0)).value_or(0);
}

// One print's silver for every tone, and its distance from the target.
class Distance {
  public:
    Distance(const std::vector<double>& wanted, const std::vector<double>& log_light,
             const std::vector<double>& areas)
        : wanted_(wanted), log_light_(log_light), areas_(areas) {}

    [[nodiscard]] double rms(const ShareCurve& share, const Developer& developer,
                             const BleachedLightness& table, const std::vector<double>& row,
                             double log_h) const {
        double sum = 0;
        const double over = log_h - developer.log_threshold();
        for (std::size_t i = 0; i < wanted_.size(); ++i) {
            const double silver = developer.with_share(share(over + log_light_[i])).density.value;
            const double miss = table.lightness(row, silver) - wanted_[i];
            sum += areas_[i] * miss * miss;
        }
        return std::sqrt(sum);
    }

  private:
    const std::vector<double>&wanted_, &log_light_, &areas_;
};

}  // namespace

SearchBounds usual_bounds(const Easel& easel) {
    const auto grades = grades_of(easel.pack(), easel.paper());
    SearchBounds bounds;
    bounds.softest = grades.front();
    bounds.hardest = grades.back();
    return bounds;
}

RecipeSearch::RecipeSearch(const Easel& easel, const Wanted& wanted)
    : easel_(easel),
      wanted_(wanted.lightness),
      lightness_(easel.paper(), easel.paper().emulsion.grains.max_density * 1.05,
                 2 * most_clearing_dose(easel)) {
    const double mean = easel.frame().mean_transmitted(easel.pack().enlarger.callier);
    for (const Tone& tone : wanted.tones) {
        log_light_.push_back(std::log10(transmitted(tone.density, mean, easel.pack().enlarger)));
        share_of_area_.push_back(tone.share);
    }
}

const ShareCurve& RecipeSearch::share_curve(double grade) const {
    const long hundredths = std::lround(grade * 100);
    const auto found = curves_.find(hundredths);
    if (found != curves_.end()) return found->second;
    return curves_.try_emplace(hundredths, easel_.pack(), easel_.paper(), double(hundredths) / 100)
        .first->second;
}

double RecipeSearch::clearing(double restrainer_ml_l) const {
    return clearing_dose(easel_.paper(), step_of(easel_.pack(), restrainer_ml_l)).value_or(0);
}

double RecipeSearch::error(double grade, double restrainer_ml_l, double dose, LogExposure exposure) const {
    ++tried_;
    const Developer developer(easel_.paper().emulsion, step_of(easel_.pack(), restrainer_ml_l));
    return Distance(wanted_, log_light_, share_of_area_)
        .rms(share_curve(grade), developer, lightness_, lightness_.at_dose(dose), exposure.value);
}

double RecipeSearch::cost_of(FoundRecipe& recipe) const {
    recipe.lightness_error = error(recipe.grade, recipe.restrainer_ml_l, recipe.bleach_dose, recipe.exposure);
    recipe.cost = recipe.lightness_error + (recipe.restrainer_ml_l > 0 ? kRestrainerCost : 0) +
                  (recipe.bleach_dose > 0 ? kBleachCost : 0);
    return recipe.cost;
}

// Pattern search: one coordinate at a time, steps halved when none helps.
void RecipeSearch::refine(FoundRecipe& best, const SearchBounds& bounds) const {
    double grade_step = 0.25, exposure_step = kThirdStop / 2, depth_step = 0.06;
    const double clear = clearing(best.restrainer_ml_l);
    const bool may_bleach = best.bleach_dose > 0;
    while (exposure_step > 0.002) {
        bool better = false;
        const auto attempt = [&](double grade, double depth, double log_h) {
            FoundRecipe next = best;
            next.grade =
                std::clamp(std::round(100 * (best.grade + grade)) / 100, bounds.softest, bounds.hardest);
            next.exposure = {best.exposure.value + log_h};
            if (may_bleach)
                next.bleach_dose =
                    std::clamp(best.bleach_dose + depth * clear, 1e-3 * clear, bounds.most_clearing * clear);
            if (cost_of(next) < best.cost - 1e-6) {
                best = next;
                better = true;
            }
        };
        for (const double sign : {1.0, -1.0}) {
            attempt(0, 0, sign * exposure_step);
            attempt(sign * grade_step, 0, 0);
            attempt(0, sign * depth_step, 0);
            // More bleach wants more light and, as a rule, a softer filter: a valley that lies askew.
            attempt(0, sign * depth_step, sign * exposure_step);
            attempt(-sign * grade_step, sign * depth_step, sign * exposure_step);
            attempt(sign * grade_step, 0, sign * exposure_step);
        }
        if (better) continue;
        grade_step /= 2;
        exposure_step /= 2;
        depth_step /= 2;
    }
}

FoundRecipe RecipeSearch::best(const SearchBounds& bounds) const {
    const Distance distance(wanted_, log_light_, share_of_area_);
    FoundRecipe winner{};
    winner.cost = std::numeric_limits<double>::infinity();
    for (const double restrainer : bounds.restrainers) {
        const Developer developer(easel_.paper().emulsion, step_of(easel_.pack(), restrainer));
        const double clear = clearing(restrainer);
        // The best with and without the bleach: their valleys are apart.
        std::optional<FoundRecipe> plain, thinned;
        const std::size_t depths = clear > 0 && bounds.most_clearing > 0 ? kDepths : 0;
        for (std::size_t d = 0; d <= depths; ++d) {
            const double dose = depths > 0 ? bounds.most_clearing * clear * double(d) / double(depths) : 0;
            const auto row = lightness_.at_dose(dose);
            auto& least = dose > 0 ? thinned : plain;
            const int quarters = std::max(1, int(std::ceil((bounds.hardest - bounds.softest) / 0.25)));
            for (int q = 0; q <= quarters; ++q) {
                const double grade = bounds.softest + (bounds.hardest - bounds.softest) * q / quarters;
                const ShareCurve& share = share_curve(grade);
                for (double shift = -kLighter; shift <= kDarker; shift += kThirdStop) {
                    const double log_h = easel_.target().exposure.value + shift;
                    const double miss = distance.rms(share, developer, lightness_, row, log_h);
                    ++tried_;
                    if (!least || miss < least->lightness_error)
                        least = FoundRecipe{grade, restrainer, dose, {log_h}, miss, 0};
                }
            }
        }
        for (auto* candidate : {&plain, &thinned}) {
            if (!*candidate) continue;
            static_cast<void>(cost_of(**candidate));
            refine(**candidate, bounds);
            if ((*candidate)->cost < winner.cost) winner = **candidate;
        }
    }
    return winner;
}

Recipe RecipeSearch::as_recipe(const FoundRecipe& found) const {
    Recipe recipe;
    recipe.exposures = {
        {found.grade, Stops{std::log2(time_giving(found.exposure, easel_.pack().enlarger).value)}}};
    recipe.restrainer_ml_l = found.restrainer_ml_l;
    recipe.bleach = bleach_time(easel_.paper().bleach, bleach_bath(easel_.pack(), recipe), found.bleach_dose);
    return recipe;
}

}  // namespace fogproof
