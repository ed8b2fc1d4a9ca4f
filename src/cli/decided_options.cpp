// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/decided_options.hpp"

#include "cli/choice.hpp"
#include "cli/typed_values.hpp"
#include "pack/grade_words.hpp"
#include "pack/treatment_limits.hpp"
#include "print/amounts.hpp"
#include "print/toner_words.hpp"

namespace fogproof::cli {
namespace {

constexpr double kLeastDevelopment = 10;  // s; less shows no image to choose a recipe by

double kept(double value, const Limits& limits, const char* option) {
    return within(value, limits.minimum, limits.maximum, option);
}

}  // namespace

void DecidedOptions::add_to(CLI::App& app) {
    const std::string group = "Already decided (the program looks for the rest)";
    app.add_option("--grade", grade, "contrast grade: 00, 0, 0.5 (or 1/2) ... 5")->group(group);
    app.add_option("--restrainer", restrainer, "ml of restrainer stock per litre of developer")
        ->type_name(kMillilitres)
        ->group(group);
    app.add_option("--most-restrainer", most_restrainer, "most restrainer to try [30]")
        ->type_name(kMillilitres)
        ->group(group);
    app.add_option("--develop", develop, "seconds in the developer")->type_name(kSeconds)->group(group);
    app.add_option("--bleach", bleach, "40s, or percent of the dose that clears the blank: 100%")
        ->group(group);
    app.add_flag("--no-bleach", no_bleach, "leave the bleach out")->group(group);
    app.add_option("--toner", toner,
                   "toner at the end: selenium or none; also sulphide or thiourea, with --bleach")
        ->group(group);
}

SearchBounds DecidedOptions::kept_in(SearchBounds bounds) const {
    if (!bleach.empty() && no_bleach)
        throw Error(Fault::usage, "--bleach", "cannot go together with --no-bleach",
                    Advice{"give one of the two"});
    if (restrainer && most_restrainer)
        throw Error(Fault::usage, "--restrainer", "cannot go together with --most-restrainer",
                    Advice{"give one of the two"});
    if (!grade.empty()) bounds.softest = bounds.hardest = grade_told(grade, "--grade");
    if (restrainer) bounds.restrainers = {kept(*restrainer, kRestrainerLimits, "--restrainer")};
    if (most_restrainer) {
        const double most = kept(*most_restrainer, kRestrainerLimits, "--most-restrainer");
        std::erase_if(bounds.restrainers, [most](double ml_l) { return ml_l > most; });
        if (bounds.restrainers.back() < most) bounds.restrainers.push_back(most);
    }
    if (develop)
        bounds.develop_s = {within(*develop, kLeastDevelopment, kDevelopmentLimits.maximum, "--develop")};
    if (no_bleach) bounds.most_clearing = 0;
    if (bleach.empty()) return bounds;
    bounds.bleach = recipe().bleach;
    if (const auto* time = std::get_if<Seconds>(&*bounds.bleach))
        static_cast<void>(kept(time->value, kBleachTimeLimits, "--bleach"));
    else
        static_cast<void>(kept(std::get<ClearingPercent>(*bounds.bleach).value, kClearingLimits, "--bleach"));
    return bounds;
}

Toner DecidedOptions::decided_toner() const {
    if (toner.empty()) return Toner::none;
    const Toner told = toner_told(toner, "--toner");
    if (tones_bleached(told) && bleach.empty())
        throw Error(Fault::usage, "--toner",
                    toner_name(told) + " tones only bleached silver, but no bleach is given",
                    "--bleach beside it (40s or 100%), or selenium");
    return told;
}

Recipe DecidedOptions::recipe() const {
    Recipe recipe;
    recipe.restrainer_ml_l = restrainer.value_or(most_restrainer.value_or(0));
    recipe.develop_s = develop;
    if (!bleach.empty()) recipe.bleach = bleach_amount(bleach, "--bleach");
    recipe.toner = decided_toner();
    return recipe;
}

}  // namespace fogproof::cli
