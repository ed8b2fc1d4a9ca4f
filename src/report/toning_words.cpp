// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/toning_words.hpp"

#include <algorithm>

#include "fogproof/base/error.hpp"
#include "pack/schema.hpp"
#include "print/toner_words.hpp"
#include "report/cautions.hpp"
#include "report/shown.hpp"

namespace fogproof::report {
namespace {

bool is_colour_measured(const Pack& pack, Toner toner) {
    const SheetConstants& sheet = pack.sheet;
    switch (toner) {
        case Toner::sulphide:
            return sheet.sulphide.patch.l > 0;
        case Toner::thiourea:
            return sheet.thiourea.patch.l > 0;
        case Toner::selenium:
            return sheet.selenium.patch.l > 0;
        case Toner::none:
            break;
    }
    return true;
}

std::vector<Toner> toners_of(std::span<const Recipe> recipes) {
    std::vector<Toner> used;
    for (const Toner toner : {Toner::sulphide, Toner::thiourea, Toner::selenium})
        if (std::ranges::any_of(
                recipes, [&](const Recipe& recipe) { return recipe.toner == toner && is_toned(recipe); }))
            used.push_back(toner);
    return used;
}

}  // namespace

std::vector<std::string> toner_notes(const Pack& pack, std::span<const Recipe> recipes) {
    std::vector<std::string> notes;
    for (const Toner toner : toners_of(recipes)) {
        const std::string name = toner_name(toner);
        if (!is_colour_measured(pack, toner))
            notes.push_back("The colour of " + name +
                            " toner is assumed, a judgement; a measured patch of this paper, all its silver "
                            "toned, goes into the pack as patch_l, patch_a, patch_b of [" +
                            name + "].");
    }
    return notes;
}

std::vector<std::string> toner_cautions(std::span<const Recipe> recipes) {
    std::vector<std::string> cautions;
    for (const Toner toner : toners_of(recipes))
        cautions.push_back(toner_caution(toner) + " Labels, local rules and licensed practice come first.");
    return cautions;
}

void refuse_coloured_in_grey(int channels, std::span<const Recipe> recipes, bool is_under_bath) {
    if (channels > 1) return;
    if (is_under_bath)
        throw Error(Fault::usage, "--profile", "a grey profile would lose the yellow of the bath",
                    "srgb, display-p3, or an RGB profile; or --view dry");
    const auto toned = std::ranges::find_if(recipes, is_toned);
    if (toned != recipes.end())
        throw Error(
            Fault::usage, "--profile",
            "a grey profile would lose the colour of a print in " + toner_name(toned->toner) + " toner",
            "srgb, display-p3, or an RGB profile");
}

std::optional<std::string> toning_step(const Recipe& recipe) {
    if (!is_toned(recipe)) return std::nullopt;
    const std::string name = toner_name(recipe.toner), time = shown(redevelopment_time(recipe));
    if (recipe.toner == Toner::selenium)
        return "Wash well: what is left of acid or fixer stains. Selenium toner, mixed as its label says, "
               "about " +
               time + "; watch it beside an untoned print.";
    return "Rinse until the yellow of the bleach is gone. Do not fix before the toner: fixer removes the "
           "silver salt that the toner needs. Tone in " +
           name + " toner, mixed as its label says, about " + time +
           ", until nothing changes any more: untoned salt stains later.";
}

}  // namespace fogproof::report
