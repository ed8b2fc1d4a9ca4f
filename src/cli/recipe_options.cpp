// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/recipe_options.hpp"

#include <algorithm>

#include "base/decimal_comma.hpp"
#include "base/written_time.hpp"
#include "cli/amount_words.hpp"
#include "cli/choice.hpp"
#include "cli/typed_values.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/recipe_file.hpp"
#include "pack/grade_words.hpp"
#include "picture/xmp_reading.hpp"
#include "print/amounts.hpp"
#include "print/recipe_parts.hpp"
#include "print/toner_words.hpp"
#include "system/picture_kind.hpp"

namespace fogproof::cli {
namespace {

// Stops count from the exposure through the negative, which a flash has none of.
Seconds flash_time(const std::string& text, const std::string& place) {
    const auto seconds = seconds_in(text);
    const bool is_signed = text.starts_with('+') || text.starts_with('-');
    if (!seconds || is_signed)
        throw Error(Fault::usage, place,
                    "\"" + text + (is_signed ? "\" is in stops" : "\" is no time" + comma_advice(text)),
                    "seconds, as 1s@0");
    return Seconds{*seconds};
}

// "4s@0": an amount and the grade it goes through. A flash is told in seconds alone.
PlannedExposure exposure_in(const std::string& text, const std::string& place, bool is_flash) {
    const auto parts = base::split(text, '@');
    if (parts.size() > 2) throw Error(Fault::usage, place, "\"" + text + "\"", "AMOUNT@GRADE, as 4s@0");
    PlannedExposure exposure;
    if (is_flash)
        exposure.amount = flash_time(parts[0], place);
    else
        exposure.amount = exposure_amount(parts[0], place);
    exposure.is_todays = true;
    if (parts.size() == 2) exposure.grade = grade_told(parts[1], place);
    return exposure;
}

// A number out of range is refused by the option's name, whatever the recipe's file calls it.
template <class Tell>
void tell(Recipe& recipe, const char* option, const Tell& told) {
    Recipe alone;
    told(alone);
    if (const auto fault = number_fault(alone))
        throw Error(Fault::usage, option, fault->value, fault->allowed);
    told(recipe);
}

}  // namespace

Recipe recipe_in_file(const std::string& file) {
    const auto kind = picture_kind(file);
    if (!kind) return read_recipe(file);
    const auto told = property_of_picture(file, "recipe");
    if (!told)
        throw Error(Fault::data, file,
                    "is a " + name_of(*kind) + " picture that does not say how it was printed",
                    "a print of this program with its XMP, or the file of a recipe, in TOML");
    if (property_of_picture(file, "across"))
        throw Error(Fault::data, file, "is a grid of prints, of which each has a recipe of its own",
                    "the picture of one print, or the file of a recipe, in TOML");
    return with_masks_in(std::filesystem::path(file).parent_path(), parse_recipe(*told, file + ", recipe"));
}

void RecipeOptions::add_to(CLI::App& app) {
    line = CommandLine(app);
    const std::string group = "Recipe";
    app.add_option("--recipe", file,
                   "recipe file, or a print of this program (no grid) whose recipe is taken; the options "
                   "below override it")
        ->group(group);
    app.add_option("--grade", grade, "contrast grade: 00, 0, 0.5 (or 1/2) ... 5")->group(group);
    app.add_option(
           "--exposure", exposure,
           "seconds (12s; with several exposures each gets them), or stops from the starting exposure (+1, "
           "-0.5, +1/3), which change all exposures alike")
        ->group(group);
    app.add_option(kSplitOption, split, "exposures through several filters: 4s@0 7s@5")
        ->group(group)
        ->take_all()
        ->expected(1);
    app.add_option(kFlashOption, flash, "exposures without the negative, in seconds: 1s@0")
        ->group(group)
        ->take_all()
        ->expected(1);
    app.add_option("--restrainer", restrainer, "ml of restrainer stock per litre of developer")
        ->type_name(kMillilitres)
        ->group(group);
    app.add_option("--develop", develop, "seconds in the developer")->type_name(kSeconds)->group(group);
    app.add_option("--bleach", bleach, "40s, or percent of the dose that clears the blank: 100%")
        ->group(group);
    app.add_option("--dilution", dilution, "of the bleach bath")->type_name(kDilution)->group(group);
    app.add_option("--redevelop", redevelop, "seconds in the developer, or the toner, after the bleach")
        ->type_name(kSeconds)
        ->group(group);
    app.add_option("--toner", toner,
                   "toner: sulphide or thiourea after a bleach, instead of the developer; selenium "
                   "with or without a bleach; none")
        ->group(group);
}

Recipe RecipeOptions::recipe() const {
    Recipe recipe = file.empty() ? Recipe{} : recipe_in_file(file);
    if (!split.empty() && (!grade.empty() || !exposure.empty()))
        throw Error(Fault::usage, "--split", "cannot go together with --grade or --exposure",
                    Advice{"give one of the two ways"});
    if (!split.empty()) {
        recipe.exposures.clear();
        tell(recipe, "--split", [&](Recipe& told) {
            for (const auto& text : amounts_of(split))
                told.exposures.push_back(exposure_in(text, "--split", false));
        });
    }
    if (!flash.empty()) {
        recipe.flashes.clear();
        tell(recipe, "--flash", [&](Recipe& told) {
            for (const auto& text : amounts_of(flash))
                told.flashes.push_back(exposure_in(text, "--flash", true));
        });
    }
    if (!grade.empty() && recipe.exposures.size() > 1)
        throw Error(
            Fault::usage, "--grade",
            "is one filter, and the recipe exposes through " + std::to_string(recipe.exposures.size()),
            "--split, or a recipe of one exposure");
    if (!grade.empty())
        tell(recipe, "--grade", [told_grade = grade_told(grade, "--grade")](Recipe& told) {
            for (auto& planned : told.exposures) planned.grade = told_grade;
        });
    if (!exposure.empty())
        tell(recipe, "--exposure", [amount = exposure_amount(exposure, "--exposure")](Recipe& told) {
            told = with_exposure(std::move(told), amount, "--exposure");
        });
    if (restrainer) tell(recipe, "--restrainer", [&](Recipe& told) { told.restrainer_ml_l = *restrainer; });
    // Only these two may also come from the settings, which the recipe goes before.
    if (develop && (line.gives("--develop") || !recipe.develop_s))
        tell(recipe, "--develop", [&](Recipe& told) { told.develop_s = *develop; });
    if (!bleach.empty())
        tell(recipe, "--bleach", [&](Recipe& told) { told.bleach = bleach_amount(bleach, "--bleach"); });
    if (dilution && (line.gives("--dilution") || !recipe.bleach_parts))
        tell(recipe, "--dilution", [&](Recipe& told) { told.bleach_parts = *dilution; });
    if (redevelop) tell(recipe, "--redevelop", [&](Recipe& told) { told.redevelop_s = *redevelop; });
    if (!toner.empty()) recipe.toner = toner_told(toner, "--toner");
    check(recipe, file.empty() ? "recipe" : file);
    return recipe;
}

void LocalWorkOptions::add_to(CLI::App& app) {
    line = CommandLine(app);
    app.add_option("--local-work", file,
                   "recipe file, or a print, whose burns, dodges and local bleach the print gets")
        ->group("Already decided (the program looks for the rest)");
}

Recipe LocalWorkOptions::recipe() const {
    Recipe local;
    if (file.empty()) return local;
    Recipe told = recipe_in_file(file);
    if (told.local.empty())
        throw Error(Fault::data, file, "has no local work", "a recipe with [[local]] tables");
    local.local = std::move(told.local);
    local.bleach_parts = told.bleach_parts;
    local.bleach_c = told.bleach_c;
    local.magnification = told.magnification;
    local.f_number = told.f_number;
    local.light_stops = told.light_stops;
    return local;
}

BleachBath LocalWorkOptions::bath(BleachBath bath, const Recipe& local,
                                  const std::optional<double>& dilution) const {
    const bool brushes_for_seconds = std::ranges::any_of(local.local, [](const LocalWork& work) {
        return work.kind == LocalWork::Kind::bleach && std::holds_alternative<Seconds>(work.amount);
    });
    if (brushes_for_seconds) {
        bath.parts = local.bleach_parts.value_or(bath.parts);
        if (local.bleach_c.value_or(bath.temperature_c) != bath.temperature_c)
            throw Error(Fault::config, file,
                        "its local bleach is for a bath of " + decimal(*local.bleach_c, 1) + " C",
                        decimal(bath.temperature_c, 1) + " C, as the [bath] of the pack has it");
    }
    // As everywhere, settings are what a recipe goes before.
    const bool is_decided =
        dilution && (line.gives("--dilution") || !brushes_for_seconds || !local.bleach_parts);
    if (is_decided) bath.parts = within(*dilution, 0, 1000, "--dilution");
    return bath;
}

}  // namespace fogproof::cli
