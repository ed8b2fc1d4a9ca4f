// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "print/recipe_doubts.hpp"

#include <algorithm>
#include <optional>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/enlarger/enlarger.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/treated_sheet.hpp"
#include "pack/schema.hpp"
#include "print/clearing.hpp"
#include "print/recipe_head.hpp"
#include "print/toner_words.hpp"

namespace fogproof::print {
namespace {

// All judgement: what nobody does on purpose.
constexpr double kLeastRestrainer = 0.5;  // ml/L; drops in a tray
constexpr double kUsualMost = 30;         // ml/L of the usual stock; the most that makers told
constexpr double kDoubtedRestrainer = 2 * kUsualMost;
constexpr double kMostDevelopment = 4;     // times the pack's own
constexpr double kMinutesAtMost = 30;      // longer times are not told in minutes
constexpr double kLeastDevelopment = 0.1;  // of the pack's own time
constexpr double kLeastRedevelopment = 3;  // s
constexpr double kLeastClearing = 2;       // percent
constexpr double kMostClearing = 300;      // percent
constexpr double kMostVeil = 0.1;          // density over the border

std::string seconds(double value) {
    return decimal(value, 1) + " s";
}

std::string meant_minutes(double value) {
    if (value > kMinutesAtMost) return {};
    return "; times are seconds: " + decimal(60 * value, 1) + "s for " + decimal(value, 2) +
           (value == 1 ? " minute" : " minutes");
}

std::optional<std::string> doubt_of_much_restrainer(const Pack& pack, const Recipe& recipe) {
    const double stock = pack.darkroom.restrainer_stock_percent,
                 usual = restrainer_defaults(pack.darkroom.restrainer_agent).stock_percent,
                 amount = recipe.restrainer_ml_l;
    if (amount * stock / usual <= kDoubtedRestrainer) return std::nullopt;
    return "restrainer " + decimal(amount, 1) + " ml/L is far above the usual " +
           decimal(kUsualMost * usual / stock, 1) + "; its effect on speed and fog is not known";
}

std::optional<std::string> doubt_of_long_development(const Pack& pack, const Recipe& recipe) {
    const double time = recipe.develop_s.value_or(0), own = pack.development.nominal_s;
    if (time <= kMostDevelopment * own) return std::nullopt;
    const bool is_told = pack.known("develop.time_s").origin != Origin::assumed;
    return "development of " + seconds(time) + " is " + decimal(time / own, 1) +
           (is_told ? " times the pack's own, " : " times the usual, ") + seconds(own) +
           "; the effect of so long a time on speed and fog is not known";
}

std::optional<std::string> doubt_of_restrainer(const Recipe& recipe) {
    const double amount = recipe.restrainer_ml_l;
    if (amount <= 0 || amount >= kLeastRestrainer) return std::nullopt;
    constexpr double kMlInLitre = 1000;
    return "restrainer " + decimal(amount, 3) +
           " ml/L is next to none; the unit is ml of stock in a litre of developer: " +
           decimal(amount * kMlInLitre, 1) + " for " + decimal(amount * 100, 2) + " %, " +
           decimal(amount * kMlInLitre / 100, 2) + " for " + decimal(amount, 3) + " %";
}

std::optional<std::string> doubt_of_development(const Pack& pack, const Recipe& recipe) {
    const double time = recipe.develop_s.value_or(0);
    const Development& development = pack.development;
    if (time <= 0 || time > std::max(development.induction_s, kLeastDevelopment * development.nominal_s))
        return std::nullopt;
    return "development of " + seconds(time) + " ends before there is an image, which appears after " +
           seconds(development.induction_s) + meant_minutes(time);
}

std::optional<std::string> doubt_of_bleach(const Pack& pack, const PaperModel& paper, const Recipe& recipe) {
    const auto* told_percent = std::get_if<ClearingPercent>(&recipe.bleach);
    const auto* told_time = std::get_if<Seconds>(&recipe.bleach);
    if ((told_percent ? told_percent->value : told_time->value) <= 0) return std::nullopt;
    if (told_time && told_time->value <= pack.bleach.soak_s)
        return "bleach of " + seconds(told_time->value) +
               " is over before the bath reaches the silver, after " + seconds(pack.bleach.soak_s) +
               ", and changes nothing" + meant_minutes(told_time->value);
    const auto clearing = clearing_dose(paper, develop_step(pack, recipe));
    if (!clearing) return std::nullopt;
    const BleachBath bath = bleach_bath(pack, recipe);
    const double percent =
        told_percent ? told_percent->value : 100 * bleach_dose(paper.bleach, bath, *told_time) / *clearing;
    const std::string told =
                          "bleach of " + (told_time ? seconds(told_time->value) : decimal(percent, 2) + " %"),
                      clearing_takes = two_digits(bleach_time(paper.bleach, bath, *clearing).value) + " s";
    // A time goes less far than its seconds say, by those that the bath needs to reach the silver.
    const std::string blank_clears =
        "; the blank clears in " + clearing_takes +
        (told_time && pack.bleach.soak_s > 0
             ? ", the first " + seconds(pack.bleach.soak_s) + " of which only soak the paper"
             : "");
    if (percent < kLeastClearing)
        return told_time ? told + " is " + decimal(percent, 1) + " % of clearing" + blank_clears +
                               meant_minutes(told_time->value)
                         : told + " is next to nothing beside clearing, which takes " + clearing_takes +
                               "; percent are wanted: " + decimal(100 * percent, 1) + "%";
    if (percent > kMostClearing)
        return told + " is " + two_digits(percent / 100) + " times clearing, and takes the picture too" +
               blank_clears + "; the starting exposure is that of a print pulled at 1.5 times";
    return std::nullopt;
}

std::optional<std::string> doubt_of_redevelopment(const Recipe& recipe) {
    const double time = redevelopment_time(recipe).value;
    if (time <= 0 && recipe.toner != Toner::none)
        return "the recipe names a toner, " + toner_name(recipe.toner) +
               ", but no time in it, so nothing is toned";
    if (time <= 0 || time > kLeastRedevelopment) return std::nullopt;
    if (is_toned(recipe))
        return "toning in " + toner_name(recipe.toner) + " for " + seconds(time) + " tones next to nothing" +
               meant_minutes(time);
    return "redevelopment of " + seconds(time) + " brings back next to nothing" + meant_minutes(time);
}

// A flash only lifts the lights. One that prints a tone by itself lays it over the whole picture.
std::optional<std::string> doubt_of_flash(const Pack& pack, const PaperModel& paper, const Recipe& recipe) {
    if (recipe.flashes.empty() || !pack.darkroom.anchored) return std::nullopt;
    const auto flashes = unit_steps(pack, paper, recipe).flashes;
    const TreatedSheet sheet(paper, develop_step(pack, recipe));
    const EaselLight light = light_at_easel({0}, 0, pack.darkroom.enlarger, {}, flashes);
    const double veil = sheet.lit(light).density.value - sheet.border().density.value;
    if (veil <= kMostVeil) return std::nullopt;
    return "the flash alone lays a grey over the whole picture; start tells how long a flash leaves none by "
           "itself";
}

}  // namespace

std::vector<std::string> recipe_doubts(const Pack& pack, std::span<const Recipe> recipes) {
    const PaperModel paper = paper_model(pack);
    std::vector<std::string> doubts;
    const auto first = [&](const auto& doubt_of) {
        for (const Recipe& recipe : recipes)
            if (auto doubt = doubt_of(recipe)) return doubts.push_back(std::move(*doubt));
    };
    first([](const Recipe& recipe) { return doubt_of_restrainer(recipe); });
    first([&](const Recipe& recipe) { return doubt_of_much_restrainer(pack, recipe); });
    first([&](const Recipe& recipe) { return doubt_of_development(pack, recipe); });
    first([&](const Recipe& recipe) { return doubt_of_long_development(pack, recipe); });
    first([&](const Recipe& recipe) { return doubt_of_bleach(pack, paper, recipe); });
    first([](const Recipe& recipe) { return doubt_of_redevelopment(recipe); });
    first([&](const Recipe& recipe) { return doubt_of_flash(pack, paper, recipe); });
    first([&](const Recipe& recipe) { return doubt_of_head(pack, recipe); });
    if (auto doubt = doubt_of_anchor(pack)) doubts.push_back(std::move(*doubt));
    return doubts;
}

void require_bleach_before_redevelopment(std::span<const Recipe> recipes) {
    const auto bleaches = [](const Recipe& recipe) {
        const auto some = [](const auto& told) {
            return std::visit([](const auto& amount) { return amount.value > 0; }, told);
        };
        return some(recipe.bleach) || std::ranges::any_of(recipe.local, [&](const LocalWork& work) {
                   return work.kind == LocalWork::Kind::bleach && some(work.amount);
               });
    };
    const auto redevelops = [](const Recipe& recipe) {
        return redevelopment_time(recipe).value > 0 && recipe.toner != Toner::selenium;
    };
    const auto found = std::ranges::find_if(recipes, redevelops);
    if (found != recipes.end() && std::ranges::none_of(recipes, bleaches))
        throw Error(
            Fault::usage, found->toner == Toner::none ? "redevelop" : "toner",
            (found->toner == Toner::none ? seconds(*found->redevelop_s) : toner_name(found->toner)) +
                " without a bleach before it",
            found->toner == Toner::none
                ? "a bleach (40s or 100%), since redevelopment brings back what the bleach took"
                : "a bleach (40s or 100%), since this toner works on what the bleach took; or selenium");
}

}  // namespace fogproof::print
