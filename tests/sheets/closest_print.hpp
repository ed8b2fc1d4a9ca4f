// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The closest print that a foreign paper can give of what is wanted, every number of it known.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include "choose/prospects.hpp"
#include "choose/recipe_search.hpp"
#include "choose/wanted.hpp"
#include "sheets/true_prints.hpp"
#include "support/foreign_owner.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests::sheets {

/// What a bleach leaves of densities; it asks the silver alone, however that came about.
class TrueBleach {
  public:
    TrueBleach(const foreign::Paper& paper, double bleach_s) {
        foreign::Treatment plain{0, 0, 2, 30, 60, 0}, bleached{0, 0, 2, 30, 60, bleach_s};
        before_ = after_ = {paper.density({0, 0, 2, 0, 0, 0})};
        for (double log_light = -4; log_light <= 5; log_light += 0.04) {
            plain.exposure_s = bleached.exposure_s = std::pow(10.0, log_light);
            const double density = paper.density(plain);
            if (density < before_.back() + kApart) continue;
            before_.push_back(density), after_.push_back(paper.density(bleached));
        }
    }
    [[nodiscard]] double operator()(double density) const {
        const auto above =
            std::clamp(std::ranges::upper_bound(before_, density), before_.begin() + 1, before_.end() - 1);
        const auto at = std::size_t(above - before_.begin());
        return std::lerp(after_[at - 1], after_[at],
                         (density - before_[at - 1]) / (before_[at] - before_[at - 1]));
    }

  private:
    static constexpr double kApart = 0.005;
    std::vector<double> before_, after_;
};

/// Searches all ways of developing that a choice looks at: first roughly, then about the best.
class ClosestPrint {
  public:
    explicit ClosestPrint(const foreign::Owner& owner) : owner_(owner) {
        const double deepest = 1.6 * owner.paper.clearing_seconds(0, 0.03);
        for (int depth = 0; depth <= kDepths; ++depth) {
            const double bleach_s = deepest * depth / kDepths;
            bleaches_.emplace_back(bleach_s, TrueBleach(owner.paper, bleach_s));
        }
    }

    struct Found {
        ToldRecipe recipe{};
        double off = std::numeric_limits<double>::infinity();  ///< rms L*
    };
    /// Within bounds, or all that are usual.
    [[nodiscard]] Found of(const Tones& frame, const std::vector<MatchedTone>& tones,
                           const std::optional<SearchBounds>& within = {}) {
        const Printing printing(foreign::Owner::unmeasured(), frame);
        const Wanted wanted = gathered(matched(printing, tones), kTones);
        std::vector<double> over_paper;
        for (const Tone& tone : wanted.tones)
            over_paper.push_back(owner_.over_paper(tone.density, frame.mean_transmitted(owner_.callier)));
        const SearchBounds bounds = within.value_or(usual_bounds(printing));
        Found best;
        for (const FoundRecipe& way : ways_of_developing(bounds, printing.pack())) {
            Found found;
            const auto search = [&](double from, double to, double grades, double stops_from, double stops_to,
                                    double stops, int depths) {
                for (double grade = std::max(from, bounds.softest); grade <= std::min(to, bounds.hardest);
                     grade += grades)
                    for (double at = stops_from; at <= stops_to; at += stops)
                        try_depths(found, way, grade, owner_.strips_s * std::exp2(at), depths, wanted,
                                   over_paper);
            };
            search(bounds.softest, bounds.hardest, 0.5, -4.5, 4.5, 1.0 / 4, 4);
            const double grade = found.recipe.grade,
                         stops = std::log2(owner_.acting(found.recipe.exposure.value) / owner_.strips_s);
            search(grade - 0.4, grade + 0.4, 0.1, stops - 0.4, stops + 0.4, 1.0 / 12, 1);
            if (found.off < best.off) best = found;
        }
        return best;
    }

  private:
    static constexpr int kDepths = 40;

    void try_depths(Found& best, const FoundRecipe& way, double grade, double acts_s, int depths,
                    const Wanted& wanted, const std::vector<double>& over_paper) {
        TrueCurve& plain = plain_curve(way, grade);
        std::vector<double> before;
        for (const double over : over_paper) before.push_back(plain(std::log10(acts_s) - over));
        for (std::size_t depth = 0; depth < bleaches_.size(); depth += std::size_t(depths)) {
            const auto& [bleach_s, bleach] = bleaches_[depth];
            double sum = 0;
            for (std::size_t i = 0; i < before.size() && sum < best.off * best.off; ++i)
                sum +=
                    wanted.tones[i].share * std::pow(lightness({bleach(before[i])}) - wanted.lightness[i], 2);
            if (sum >= best.off * best.off) continue;
            best.off = std::sqrt(sum);
            best.recipe = {
                grade, way.restrainer_ml_l, way.develop_s, {owner_.seconds_acting(acts_s)}, {bleach_s}, 0};
        }
    }
    TrueCurve& plain_curve(const FoundRecipe& way, double grade) {
        const foreign::Treatment treatment{0, 0, grade, way.restrainer_ml_l, way.develop_s, 0};
        return plain_
            .try_emplace({std::lround(100 * grade), way.restrainer_ml_l, way.develop_s}, owner_.paper,
                         treatment)
            .first->second;
    }

    const foreign::Owner& owner_;
    std::vector<std::pair<double, TrueBleach>> bleaches_;
    std::map<std::tuple<long, double, double>, TrueCurve> plain_;
};

}  // namespace fogproof::tests::sheets
