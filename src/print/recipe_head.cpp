// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "print/recipe_head.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"

namespace fogproof::print {
namespace {

// Less changes no print that anybody could tell from another. Judgement.
constexpr double kLeastStops = 0.02;

bool is_in_seconds(const Recipe& recipe) {
    const auto in_seconds = [](const PlannedExposure& exposure) {
        return std::holds_alternative<Seconds>(exposure.amount);
    };
    return std::ranges::any_of(recipe.exposures, in_seconds) || !recipe.flashes.empty();
}

}  // namespace

std::string in_words(const HeadSetting& setting) {
    return "magnification " + decimal(setting.magnification, 2) + " and f/" + decimal(setting.f_number, 1);
}

bool is_head_told(const Pack& pack) {
    return pack.known("enlarger.magnification").origin != Origin::assumed ||
           pack.known("anchor.magnification").origin != Origin::assumed;
}

Recipe with_head_of(const Pack& pack, Recipe recipe) {
    const HeadSetting& setting = pack.darkroom.enlarger.setting;
    if (!pack.darkroom.anchored || !is_in_seconds(recipe) || !is_head_told(pack)) return recipe;
    recipe.magnification = setting.magnification;
    recipe.f_number = setting.f_number;
    return recipe;
}

std::optional<std::string> doubt_of_head(const Pack& pack, const Recipe& recipe) {
    if (!pack.darkroom.anchored || !is_in_seconds(recipe)) return std::nullopt;
    Enlarger meant = pack.darkroom.enlarger;
    meant.setting.magnification = recipe.magnification.value_or(meant.setting.magnification);
    meant.setting.f_number = recipe.f_number.value_or(meant.setting.f_number);
    const Enlarger& used = pack.darkroom.enlarger;
    const double stops = std::log2(head_factor(used) / head_factor(meant));
    if (std::abs(stops) < kLeastStops) return std::nullopt;
    const std::string told = decimal(std::abs(stops), 1);
    return "the recipe's seconds are for " + in_words(meant.setting) + ", and the enlarger is set to " +
           in_words(used.setting) + ": the paper gets " + told + (told == "1" ? " stop " : " stops ") +
           (stops < 0 ? "less" : "more") + " light than the recipe means; " +
           two_digits(std::exp2(-stops / used.reciprocity)) + " times the seconds make up for it";
}

}  // namespace fogproof::print
