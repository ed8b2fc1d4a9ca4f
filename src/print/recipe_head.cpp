// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "print/recipe_head.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <vector>

#include "base/stop.hpp"
#include "base/words.hpp"

namespace fogproof::print {
namespace {

// Less changes no print that anybody could tell from another. Judgement.
constexpr double kLeastStops = 0.05;

// To a hundredth, as lights are told.
double todays_stops(const Enlarger& enlarger) {
    return std::round(100 * enlarger.log_light_today / kLogPerStop) / 100;
}

bool is_of_file(const PlannedExposure& exposure) {
    return std::holds_alternative<Seconds>(exposure.amount) && !exposure.is_todays;
}

// What of a recipe its own seconds are of. A bleach needs no light.
std::vector<std::string> lit_for_seconds(const Recipe& recipe) {
    std::vector<std::string> kinds;
    if (std::ranges::any_of(recipe.exposures, is_of_file)) kinds.emplace_back("exposure");
    if (std::ranges::any_of(recipe.flashes, is_of_file)) kinds.emplace_back("flash");
    for (const auto kind : {LocalWork::Kind::burn, LocalWork::Kind::dodge})
        if (std::ranges::any_of(recipe.local, [&](const LocalWork& work) {
                return work.kind == kind && std::holds_alternative<Seconds>(work.amount);
            }))
            kinds.push_back(name_of(kind));
    return kinds;
}

// "1 stop", "0.5 stops".
std::string stops_counted(const std::string& number) {
    return number + (number == "1" ? " stop" : " stops");
}

std::string head_words(const Enlarger& enlarger) {
    const double stops = todays_stops(enlarger);
    if (stops == 0) return in_words(enlarger.setting);
    return in_words(enlarger.setting) + " with a light " + stops_counted(decimal(std::abs(stops), 2)) +
           (stops > 0 ? " brighter" : " dimmer") + " than when the pack was read";
}

// What of the recipe's setting is another than is taken for this print, where nobody told it.
std::vector<std::string> untold_options(const Pack& pack, const Recipe& recipe) {
    const HeadSetting& taken = pack.darkroom.enlarger.setting;
    std::vector<std::string> options;
    if (recipe.magnification && *recipe.magnification != taken.magnification &&
        !is_setting_told(pack, "magnification"))
        options.push_back("--magnification " + decimal(*recipe.magnification, 2));
    if (recipe.f_number && *recipe.f_number != taken.f_number && !is_setting_told(pack, "f_number"))
        options.push_back("--f-number " + decimal(*recipe.f_number, 1));
    return options;
}

}  // namespace

std::string in_words(const HeadSetting& setting) {
    return "magnification " + decimal(setting.magnification, 2) + " and f/" + decimal(setting.f_number, 1);
}

bool is_setting_told(const Pack& pack, const std::string& key) {
    return pack.known("enlarger." + key).origin != Origin::assumed ||
           pack.known("anchor." + key).origin != Origin::assumed;
}

bool is_head_told(const Pack& pack) {
    return is_setting_told(pack, "magnification") || is_setting_told(pack, "f_number");
}

Recipe with_head_of(const Pack& pack, Recipe recipe) {
    for (auto* list : {&recipe.exposures, &recipe.flashes})
        for (auto& exposure : *list) exposure.is_todays = false;
    if (!pack.darkroom.anchored || lit_for_seconds(recipe).empty()) return recipe;
    const Enlarger& used = pack.darkroom.enlarger;
    if (is_setting_told(pack, "magnification")) recipe.magnification = used.setting.magnification;
    if (is_setting_told(pack, "f_number")) recipe.f_number = used.setting.f_number;
    recipe.light_stops = std::nullopt;
    if (const double stops = todays_stops(used); stops != 0) recipe.light_stops = stops;
    return recipe;
}

std::optional<std::string> doubt_of_anchor(const Pack& pack) {
    const auto& [setting, anchor] = std::tie(pack.darkroom.enlarger.setting, pack.darkroom.enlarger.anchor);
    const auto is_guessed = [&](const char* key, double set, double then) {
        return set != then && pack.known(std::string("anchor.") + key).origin == Origin::assumed;
    };
    if (!pack.darkroom.anchored ||
        (!is_guessed("magnification", setting.magnification, anchor.magnification) &&
         !is_guessed("f_number", setting.f_number, anchor.f_number)))
        return std::nullopt;
    return "the pack does not say for which magnification and f-number its seconds are; " + in_words(anchor) +
           " are assumed, and seconds for " + in_words(setting) +
           " are worked out from these: write the true ones into [anchor] of the pack";
}

std::optional<std::string> doubt_of_head(const Pack& pack, const Recipe& recipe) {
    if (!pack.darkroom.anchored || (!recipe.magnification && !recipe.f_number && !recipe.light_stops))
        return std::nullopt;
    const auto kinds = lit_for_seconds(recipe);
    if (kinds.empty()) return std::nullopt;
    const Enlarger& used = pack.darkroom.enlarger;
    Enlarger meant = used;
    meant.log_light_today = recipe.light_stops.value_or(0) * kLogPerStop;
    meant.setting.magnification = recipe.magnification.value_or(meant.setting.magnification);
    meant.setting.f_number = recipe.f_number.value_or(meant.setting.f_number);
    const std::string of_seconds = "the recipe's seconds of " + listed(kinds) + " are for ";
    if (const auto untold = untold_options(pack, recipe); !untold.empty())
        return of_seconds + head_words(meant) +
               ", and nothing says how the enlarger is set for this print: give " + listed(untold) +
               " if it is set like that";
    const double stops = std::log2(head_factor(used) / head_factor(meant));
    if (std::abs(stops) < kLeastStops) return std::nullopt;
    return of_seconds + head_words(meant) + ", and the enlarger is set to " + head_words(used) +
           ": the paper gets " + stops_counted(decimal(std::abs(stops), 1)) +
           (stops < 0 ? " less" : " more") + " light from them than the recipe means; " +
           decimal(std::exp2(-stops / used.reciprocity), 2) + " times the seconds make up for it";
}

}  // namespace fogproof::print
