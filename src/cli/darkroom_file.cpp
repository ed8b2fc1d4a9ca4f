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

// Every setting is an option without its dashes, where no other is named; the example is what stands in a new
// file. It serves every verb that has the option, or those that are named; two rows of one key, verbs by
// options of different names.
struct Known {
    const char *section, *key, *example, *meaning, *verbs = "", *option = "";
    [[nodiscard]] std::string serves() const { return "--" + std::string(*option == '\0' ? key : option); }
};
constexpr const char* kProofs = "grid print start plan";
constexpr const char* kProofsAndFit = "grid print start plan fit";
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
    Known{"scanner", "encoding", "\"linear\"",
          "of scans of negatives: linear, srgb, gamma22 or density; over profile and default", kProofsAndFit},
    Known{"scanner", "encoding", "", "", "read", "negative-encoding"},
    Known{"scanner", "print-encoding", "\"srgb\"", "of flatbed scans of paper, for read", "read", "encoding"},
    Known{"scanner", "black", "\"0.0005\"", "scanner black, as transmittance, in scans of negatives"},
    Known{"scanner", "white", "\"10,10,40,40=0.05\"",
          "a light patch that stays on the glass, LEFT,TOP,WIDTH,HEIGHT=DENSITY", "read"},
    Known{"scanner", "dark", "\"60,10,40,40=1.9\"", "a dark one", "read"},
    Known{"picture", "profile", "\"srgb\"", "a name that --profile knows, or an ICC file"},
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
        if (known.section == section && *known.example != '\0') keys.emplace_back(known.key);
    return keys;
}

std::string word_of(const TomlValue& value) {
    if (const auto* number = std::get_if<double>(&value.content)) return shortest(*number);
    return text_of(value);
}

// What a setting is to a verb; nothing where it serves others.
const Known* known_to(const std::string& verb, const DarkroomFile::Setting& setting) {
    for (const Known& known : kKnown) {
        if (setting.section != known.section || setting.key != known.key) continue;
        const auto verbs = split(known.verbs, ' ');
        if (*known.verbs == '\0' || std::ranges::find(verbs, verb) != verbs.end()) return &known;
    }
    return nullptr;
}

void serve_verb(CLI::App& verb, const DarkroomFile::Setting& setting, bool& taken) {
    for (auto* nested : verb.get_subcommands([](CLI::App*) { return true; }))
        serve_verb(*nested, setting, taken);
    const Known* known = known_to(verb.get_name(), setting);
    auto* const option = known ? verb.get_option_no_throw(known->serves()) : nullptr;
    if (option == nullptr) return;
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
        "# Settings of this darkroom. Take the # off a line to set it. A recipe overrides them, but not "
        "those of\n"
        "# the enlarger; an option on the command line overrides both.\n" +
        std::string(kVersionKey) + " = 1\n";
    std::string section;
    for (const Known& known : kKnown) {
        if (*known.example == '\0') continue;
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
            settings_.push_back({section.name, value.key, word_of(value), value.place});
        }
    }
}

void DarkroomFile::serve(CLI::App& program) const {
    for (const Setting& setting : settings_) {
        bool taken = false;
        serve_verb(program, setting, taken);
        if (!taken)
            throw Error(Fault::data, setting.place, "--" + setting.key + " is not an option of any verb");
    }
}

std::optional<std::string> DarkroomFile::place_of(const std::string& option, const std::string& verb) const {
    const auto found = std::ranges::find_if(settings_, [&](const Setting& setting) {
        const Known* known = known_to(verb, setting);
        return known && known->serves() == option;
    });
    return found == settings_.end() ? std::nullopt : std::optional(found->place);
}

}  // namespace fogproof::cli
