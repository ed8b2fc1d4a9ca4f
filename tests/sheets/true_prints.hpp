// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Told recipes carried out on a foreign paper.
#pragma once

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <vector>

#include "choose/prospects.hpp"
#include "fogproof/sheet/colour.hpp"
#include "support/foreign_owner.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests::sheets {

/// Tones that a print is looked at by.
inline constexpr std::size_t kTones = 24;

/// Densities of one treatment over log10 of the light that acts, worked out where they are asked for.
class TrueCurve {
  public:
    TrueCurve(const foreign::Paper& paper, foreign::Treatment treatment)
        : paper_(&paper),
          treatment_(treatment),
          nodes_(std::size_t((kHighest - kLowest) / kStep) + 2, kUnknown) {}
    [[nodiscard]] double operator()(double log_light) {
        const double place = (std::clamp(log_light, kLowest, kHighest) - kLowest) / kStep;
        const auto below = std::size_t(place);
        return std::lerp(node(below), node(below + 1), place - double(below));
    }

  private:
    static constexpr double kLowest = -8, kHighest = 6, kStep = 0.03, kUnknown = -1;
    double node(std::size_t at) {
        if (nodes_[at] != kUnknown) return nodes_[at];
        treatment_.exposure_s = std::pow(10.0, kLowest + kStep * double(at));
        return nodes_[at] = paper_->density(treatment_);
    }

    const foreign::Paper* paper_;
    foreign::Treatment treatment_;
    std::vector<double> nodes_;
};

/// Prints of one negative on one paper, held against what is wanted of them. A sheet may be darker than the
/// paper is as a rule, by one density throughout.
class TruePrints {
  public:
    TruePrints(const foreign::Owner& owner, const Tones& frame, Wanted few)
        : owner_(owner), wanted_(std::move(few)), mean_(frame.mean_transmitted(owner.callier)) {
        for (const Tone& tone : wanted_.tones) over_paper_.push_back(owner.over_paper(tone.density, mean_));
    }

    /// rms L* of a recipe from what is wanted, in other seconds than are told.
    [[nodiscard]] double off(const ToldRecipe& recipe, double exposure_s, double darker) {
        TrueCurve& curve = curve_of(recipe);
        const double log_light = std::log10(owner_.acting(exposure_s));
        double sum = 0;
        for (std::size_t i = 0; i < over_paper_.size(); ++i)
            sum += square(i, curve(log_light - over_paper_[i]) + darker);
        return std::sqrt(sum);
    }
    /// The seconds with which a recipe comes closest.
    [[nodiscard]] double right_s(const ToldRecipe& recipe) {
        double best = recipe.exposure.value, least = off(recipe, best, 0);
        for (double stops = -3; stops <= 3; stops += 1.0 / 24) {
            const double exposure_s = recipe.exposure.value * std::exp2(stops);
            if (const double now = off(recipe, exposure_s, 0); now < least) least = now, best = exposure_s;
        }
        return best;
    }
    /// Density that a tone of the negative comes to.
    [[nodiscard]] double density(const ToldRecipe& recipe, NegativeDensity tone) {
        return curve_of(recipe)(std::log10(owner_.acting(recipe.exposure.value)) -
                                owner_.over_paper(tone, mean_));
    }

  private:
    [[nodiscard]] double square(std::size_t tone, double density) const {
        return wanted_.tones[tone].share * std::pow(lightness({density}) - wanted_.lightness[tone], 2);
    }
    TrueCurve& curve_of(const ToldRecipe& recipe) {
        const std::tuple key{recipe.grade, recipe.restrainer_ml_l, recipe.develop_s, recipe.bleach.value};
        return curves_
            .try_emplace(key, owner_.paper,
                         foreign::Treatment{0, 0, recipe.grade, recipe.restrainer_ml_l, recipe.develop_s,
                                            recipe.bleach.value})
            .first->second;
    }

    const foreign::Owner& owner_;
    Wanted wanted_;
    double mean_;
    std::vector<double> over_paper_;
    std::map<std::tuple<double, double, double, double>, TrueCurve> curves_;
};

}  // namespace fogproof::tests::sheets
