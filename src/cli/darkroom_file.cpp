// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/darkroom_file.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/toml_file.hpp"
#include "system/text_file.hpp"

namespace fogproof::cli {
namespace {

namespace fs = std::filesystem;

constexpr char kVersionKey[] = "fogproof_darkroom";
constexpr std::size_t kLargestFile = 1u << 20;  // far more than settings need

// Every setting is an option without its dashes; the example is what stands in a new file. It serves every
// verb that has the option, or those that are named.
struct Known {
    const char *section, *key, *example, *meaning, *verbs = "";
};
constexpr const char* kProofs = "grid print start plan";
constexpr std::array kKnown{
    Known{"enlarger", "callier", "1.0", "Callier Q: 1 to 1.05 diffuser, 1.2 to 1.5 condenser"},
    Known{"enlarger", "flare", "0.005", "share of the mean light spread over the easel"},
    Known{"enlarger", "f-number", "8", "of the enlarging lens"},
    Known{"enlarger", "head", "\"diffuser\"", "diffuser or condenser"},
    Known{"enlarger", "magnification", "5", "long side of print over long side of frame"},
    Known{"enlarger", "reciprocity", "1.0", "Schwarzschild exponent of the paper"},
    Known{"work", "pack", "\"/home/me/attic.toml\"", "the pack in use, for grid, print, start and plan",
          kProofs},
    Known{"work", "develop", "120", "seconds in the developer, for grid, print, start and plan", kProofs},
    Known{"work", "dilution", "\"1+50\"", "of the bleach bath", kProofs},
    Known{"work", "sheet", "\"240x300\"", "WIDTHxLENGTH of a sheet in mm, or 24x30cm"},
    Known{"work", "margin", "10", "white border in mm"},
    Known{"work", "litres", "1", "in each tray"},
    Known{"work", "tray", "\"270x330x12\"", "WIDTHxLENGTHxDEPTH of the bath in mm, instead of litres"},
    Known{"work", "developer-parts", "9", "N of the developer 1+N"},
    Known{"work", "restrainer-agent", "\"bromide\"", "bromide or benzotriazole, for pack new", "new"},
    Known{"work", "restrainer-stock", "10", "g of it in 100 ml of your stock, for pack new", "new"},
    Known{"work", "bleach-stock", "100", "g/L of ferricyanide in your concentrate, for pack new", "new"},
    Known{"work", "together", "2", "sheets in the bleach at once"},
    Known{"scanner", "encoding", "\"linear\"", "linear, srgb, gamma22 or density; over profile and default"},
    Known{"scanner", "black", "\"0.0005\"", "scanner black, as transmittance"},
    Known{"scanner", "white", "\"10,10,40,40=0.05\"",
          "a light patch that stays on the glass, LEFT,TOP,WIDTH,HEIGHT=DENSITY", "read"},
    Known{"scanner", "dark", "\"60,10,40,40=1.9\"", "a dark one", "read"},
    Known{"picture", "profile", "\"srgb\"", "srgb, display-p3, grey, or an ICC file"},
};

std::vector<std::string> sections() {
    std::vector<std::string> names;
    for (const Known& known : kKnown)
        if (names.empty() || names.back() != known.section) names.emplace_back(known.section);
    return names;
}

std::vector<std::string> keys_of(const std::string& section) {
    std::vector<std::string> keys;
    for (const Known& known : kKnown)
        if (known.section == section) keys.emplace_back(known.key);
    return keys;
}

std::string word_of(const TomlValue& value) {
    if (const auto* number = std::get_if<double>(&value.content)) return shortest(*number);
    return text_of(value);
}

bool serves(const DarkroomFile::Setting& setting, const CLI::App& verb) {
    const auto known = std::ranges::find_if(kKnown, [&](const Known& one) {
        return setting.section == one.section && setting.option == "--" + std::string(one.key);
    });
    const auto verbs = split(known->verbs, ' ');
    return *known->verbs == '\0' || std::ranges::find(verbs, verb.get_name()) != verbs.end();
}

void serve_verb(CLI::App& verb, const DarkroomFile::Setting& setting, bool& taken) {
    for (auto* nested : verb.get_subcommands([](CLI::App*) { return true; }))
        serve_verb(*nested, setting, taken);
    auto* const option = verb.get_option_no_throw(setting.option);
    if (option == nullptr || !serves(setting, verb)) return;
    taken = true;
    option->required(false);
    try {
        option->run_callback_for_default()->default_val(setting.value);
    } catch (const CLI::ParseError& fault) {
        throw Error(Fault::data, setting.place, fault.what());
    }
}

}  // namespace

fs::path DarkroomFile::usual_path() {
    const auto variable = [](const char* name) {
        const char* value = std::getenv(name);
        return fs::path(value == nullptr ? "" : value);
    };
    // The specification has relative paths ignored.
    const fs::path settings = variable("XDG_CONFIG_HOME"), home = variable("HOME");
    if (settings.is_absolute()) return settings / "fogproof" / "darkroom.toml";
    if (home.is_absolute()) return home / ".config" / "fogproof" / "darkroom.toml";
    return {};
}

std::string DarkroomFile::blank() {
    std::string text =
        "# What never changes in this darkroom. Take the # off a line to set it; the command line goes "
        "before "
        "it.\n" +
        std::string(kVersionKey) + " = 1\n";
    std::string section;
    for (const Known& known : kKnown) {
        if (section != known.section) text += "\n[" + (section = known.section) + "]\n";
        text += "# " + std::string(known.key) + " = " + known.example + "  # " + known.meaning + "\n";
    }
    return text;
}

DarkroomFile::DarkroomFile(const fs::path& path) {
    std::error_code fault;
    if (path.empty() || !fs::exists(path, fault)) return;
    const TomlFile file = parsed_toml(
        read_text(path, kLargestFile, "settings, as fogproof darkroom --new writes them"), path.string());
    check_version(file, kVersionKey, 1);
    const auto known_sections = sections();
    for (const auto& value : file.values)
        if (value.key != kVersionKey)
            refuse_unknown(value.place, "key outside of a section:", value.key,
                           std::array{std::string(kVersionKey)});
    for (const auto& section : file.sections) {
        if (section.repeated || std::ranges::find(known_sections, section.name) == known_sections.end())
            refuse_unknown(section.place, "section", section.name, known_sections);
        const auto keys = keys_of(section.name);
        for (const auto& value : section.values) {
            if (std::ranges::find(keys, value.key) == keys.end())
                refuse_unknown(value.place, "key in [" + section.name + "]:", value.key, keys);
            settings_.push_back({section.name, "--" + value.key, word_of(value), value.place});
        }
    }
}

void DarkroomFile::serve(CLI::App& program) const {
    for (const Setting& setting : settings_) {
        bool taken = false;
        serve_verb(program, setting, taken);
        if (!taken) throw Error(Fault::data, setting.place, setting.option + " is not an option of any verb");
    }
}

std::optional<std::string> DarkroomFile::place_of(const std::string& option) const {
    const auto found = std::ranges::find(settings_, option, &Setting::option);
    return found == settings_.end() ? std::nullopt : std::optional(found->place);
}

}  // namespace fogproof::cli
