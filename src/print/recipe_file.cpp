// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/recipe_file.hpp"

#include <algorithm>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/grade_words.hpp"
#include "pack/toml_file.hpp"
#include "print/local_entries.hpp"
#include "print/recipe_parts.hpp"
#include "print/toner_words.hpp"
#include "system/path_beside.hpp"
#include "system/text_file.hpp"
#include "system/whole_file.hpp"

namespace fogproof::print {
namespace {

constexpr char kTonerKey[] = "toner";
constexpr char kVersionKey[] = "fogproof_recipe";
constexpr int kRecipeVersion = 1;
constexpr std::size_t kLargestFile = 1u << 20;  // far more than a recipe needs

std::vector<std::string> toner_names() {
    return {kTonerNames.begin(), kTonerNames.end()};
}

// Refuses the second of two keys that tell the same thing.
void refuse_both(const TomlValue& entry, const std::string& other, const std::string& section) {
    throw Error(Fault::data, entry.place, entry.key + " beside " + other, "one of them in " + section);
}

PlannedExposure exposure_of(const TomlSection& section, bool is_flash) {
    const std::string name = "[[" + section.name + "]]";
    const std::vector<std::string> keys = is_flash ? std::vector<std::string>{"grade", "time_s"}
                                                   : std::vector<std::string>{"grade", "time_s", "stops"};
    PlannedExposure exposure;
    std::string told;  // the key that says how much
    for (const auto& entry : section.values) {
        if (std::find(keys.begin(), keys.end(), entry.key) == keys.end())
            refuse_unknown(entry.place, "key in " + name + ":", entry.key, keys);
        if (entry.key == "grade") {
            exposure.grade = grade_of(entry, kGradeLimits);
            continue;
        }
        if (!told.empty()) refuse_both(entry, told, name);
        told = entry.key;
        if (told == "stops")
            exposure.amount = Stops{number_of(entry, kStopsLimits)};
        else
            exposure.amount = Seconds{number_of(entry, is_flash ? kFlashLimits : kExposureLimits)};
    }
    if (is_flash && told.empty()) throw Error(Fault::data, section.place, name, "with time_s");
    return exposure;
}

void read_exposure(Recipe& recipe, const TomlSection& section, bool& is_first) {
    const bool is_flash = section.name == "flash";
    auto& list = is_flash ? recipe.flashes : recipe.exposures;
    if (!is_flash && is_first) {
        list.clear();
        is_first = false;
    }
    if (list.size() == kMostExposures)
        throw Error(Fault::data, section.place, "one more [[" + section.name + "]]",
                    "up to " + std::to_string(kMostExposures));
    list.push_back(exposure_of(section, is_flash));
}

void read_local(Recipe& recipe, const TomlSection& section) {
    if (recipe.local.size() == kMostLocalWorks)
        throw Error(Fault::data, section.place, "one more [[local]]",
                    "up to " + std::to_string(kMostLocalWorks));
    recipe.local.push_back(local_work_of(section));
    const std::string& name = recipe.local.back().name;
    if (!name.empty() && std::ranges::count(recipe.local, name, &LocalWork::name) > 1)
        throw Error(Fault::data, section.place, "the name " + name + " is there twice",
                    "a name for each work");
}

void read_section(Recipe& recipe, const TomlSection& section) {
    std::string told;
    for (const auto& entry : section.values) {
        if (section.name == "redevelop" && entry.key == kTonerKey) {
            recipe.toner = Toner(choice_of(entry, toner_names()));
            continue;
        }
        const auto parts = recipe_parts();
        const auto part = std::find_if(parts.begin(), parts.end(), [&](const RecipePart& p) {
            return p.section == section.name && p.key == entry.key;
        });
        if (part == parts.end()) {
            std::vector<std::string> keys;
            for (const auto& p : parts)
                if (p.section == section.name) keys.emplace_back(p.key);
            if (section.name == "redevelop") keys.emplace_back(kTonerKey);
            refuse_unknown(entry.place, "key in [" + section.name + "]:", entry.key, keys);
        }
        if (section.name == "bleach" && (entry.key == "time_s" || entry.key == "clearing_percent")) {
            if (!told.empty()) refuse_both(entry, told, "[bleach]");
            told = entry.key;
        }
        part->set(recipe,
                  entry.key == "parts" ? parts_of(entry, part->limits) : number_of(entry, part->limits));
    }
}

std::string line(const std::string& key, double value) {
    return key + " = " + shortest(value) + "\n";
}

std::string text_of(const PlannedExposure& exposure) {
    const std::string grade = exposure.grade ? "grade = " + grade_entry(*exposure.grade) + "\n" : "";
    if (const auto* stops = std::get_if<Stops>(&exposure.amount)) return grade + line("stops", stops->value);
    return grade + line("time_s", std::get<Seconds>(exposure.amount).value);
}

}  // namespace

Recipe parse_recipe(std::string_view text, const std::string& place) {
    const TomlFile file = parsed_toml(text, place);
    check_version(file, kVersionKey, kRecipeVersion);
    static const std::vector<std::string> kHead{kVersionKey};
    static const std::vector<std::string> kSections{"exposure", "flash",     "enlarger", "develop",
                                                    "bleach",   "redevelop", "local"};
    for (const auto& value : file.values)
        if (value.key != kVersionKey) refuse_unknown(value.place, "key", value.key, kHead);
    Recipe recipe;
    bool is_first_exposure = true;
    for (const auto& section : file.sections) {
        if (std::find(kSections.begin(), kSections.end(), section.name) == kSections.end())
            refuse_unknown(section.place, "section", section.name, kSections);
        const bool is_local = section.name == "local";
        const bool is_list = section.name == "exposure" || section.name == "flash" || is_local;
        if (section.repeated != is_list)
            throw Error(Fault::data, section.place,
                        is_list ? "[" + section.name + "]" : "[[" + section.name + "]]",
                        is_list ? "[[" + section.name + "]]" : "[" + section.name + "], once");
        if (is_local)
            read_local(recipe, section);
        else if (is_list)
            read_exposure(recipe, section, is_first_exposure);
        else
            read_section(recipe, section);
    }
    // Every written recipe says 0 where nobody asked for any; a toner told beside it keeps its usual time.
    if (recipe.toner == Toner::none && recipe.redevelop_s == 0.0) recipe.redevelop_s.reset();
    check(recipe, place);
    return recipe;
}

Recipe read_recipe(const std::filesystem::path& path) {
    return with_masks_in(
        path.parent_path(),
        parse_recipe(read_text(path, kLargestFile, "the file of a recipe, in TOML"), path.string()));
}

Recipe with_masks_in(const std::filesystem::path& folder, Recipe recipe) {
    for (LocalWork& work : recipe.local)
        if (auto* picture = std::get_if<MaskPicture>(&work.where))
            picture->path = path_beside(folder, picture->path).string();
    return recipe;
}

Recipe with_masks_as_from(const std::filesystem::path& folder, Recipe recipe) {
    std::error_code unknown;
    for (LocalWork& work : recipe.local)
        if (auto* picture = std::get_if<MaskPicture>(&work.where)) {
            const auto near =
                std::filesystem::proximate(picture->path, folder.empty() ? "." : folder, unknown);
            if (!unknown && !near.empty()) picture->path = near.string();
        }
    return recipe;
}

std::string written(const Recipe& recipe) {
    check(recipe, "recipe");
    std::string text = "# One print.\n" + std::string(kVersionKey) + " = " + std::to_string(kRecipeVersion) +
                       "\n\n# Exposures add up. grade: filter. stops from the negative's starting exposure, "
                       "or time_s.\n";
    for (const auto& exposure : recipe.exposures) text += "[[exposure]]\n" + text_of(exposure);
    if (!recipe.flashes.empty()) text += "\n# Flashes, without the negative.\n";
    for (const auto& flash : recipe.flashes) text += "[[flash]]\n" + text_of(flash);
    std::string_view section;
    for (const auto& part : recipe_parts()) {
        if (part.section != section) text += "\n[" + std::string(part.section) + "]\n";
        section = part.section;
        if (section == "redevelop" && recipe.toner != Toner::none)
            text += "# In a toner in place of the second developer: " + listed(toner_names()) + ".\n" +
                    kTonerKey + " = \"" + toner_name(recipe.toner) + "\"\n";
        const std::string key(part.key);
        const auto value = part.of(recipe);
        text += "# " + std::string(part.description) + " " + limits_in_words(part.limits) + ".\n";
        text += value ? line(key, *value) : "# " + key + " =\n";
    }
    if (!recipe.local.empty())
        text +=
            "\n# Local work, in its order. where: a mask, white for full, or a shape in percent of the "
            "frame.\n";
    for (const auto& work : recipe.local) text += text_of(work);
    return text;
}

}  // namespace fogproof::print
