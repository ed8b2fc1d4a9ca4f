// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <limits>
#include <set>

#include "base/markup.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/pack/file.hpp"
#include "pack/carrier.hpp"
#include "pack/departure_text.hpp"
#include "pack/fit_record.hpp"
#include "pack/pack_format.hpp"
#include "pack/schema.hpp"
#include "pack/toml_file.hpp"
#include "system/path_beside.hpp"
#include "system/text_file.hpp"
#include "system/whole_file.hpp"

namespace fogproof::pack {
namespace {

struct Stated {
    TomlValue value;  // what stands for the value itself
    Knowledge knowledge;
};

// A value with its origin and deviation, whether it stands plain or in a table.
Stated stated(const TomlValue& entry, bool is_number) {
    const auto* parts = std::get_if<std::vector<TomlValue>>(&entry.content);
    if (!parts) return {entry, {Origin::given, std::nullopt}};
    const std::vector<std::string> known = is_number ? std::vector<std::string>{"value", "sd", "from"}
                                                     : std::vector<std::string>{"value", "from"};
    Stated result{entry, {Origin::given, std::nullopt}};
    bool has_value = false;
    for (const auto& part : *parts) {
        if (part.key == "value") {
            result.value.content = part.content;
            has_value = true;
        } else if (part.key == "sd" && is_number) {
            constexpr double kSmallest = std::numeric_limits<double>::min();
            const auto* number = std::get_if<double>(&part.content);
            if (!number || !within(*number, {kSmallest, std::numeric_limits<double>::max(), ""}))
                refuse_value(part, "numbers above 0");
            result.knowledge.deviation = *number;
        } else if (part.key == "from") {
            const auto* word = std::get_if<std::string>(&part.content);
            const auto origin = word ? origin_of(*word) : std::nullopt;
            result.knowledge.origin = origin ? *origin : Origin(choice_of(part, origin_words()));
        } else {
            refuse_unknown(part.place, "part of " + entry.key + ":", part.key, known);
        }
    }
    if (!has_value) throw Error(Fault::data, entry.place, entry.key + " has no value", "{ value = ... }");
    return result;
}

// What is merely assumed and has no deviation needs no entry.
void remember(Pack& pack, const std::string& name, const Knowledge& knowledge) {
    if (knowledge != Knowledge{}) pack.knowledge[name] = knowledge;
}

std::string one_line(const TomlValue& value) {
    const std::string text = text_of(value);
    if (!is_plain_line(text)) refuse_value(value, "text of one line");
    return text;
}

void read_head(Pack& pack, const TomlFile& file) {
    static const std::vector<std::string> kKeys{kVersionKey, "name", "notes"};
    for (const auto& value : file.values) {
        if (value.key == kVersionKey) continue;
        if (value.key == "name")
            pack.name = one_line(value);
        else if (value.key == "notes")
            pack.notes = text_of(value);
        else
            refuse_unknown(value.place, "key", value.key, kKeys);
    }
}

Carrier carrier_of(const TomlValue& entry) {
    if (const auto* density = std::get_if<double>(&entry.content);
        density && within(*density, {0, kDensestCarrier, ""}))
        return Carrier::of(*density);
    const auto* word = std::get_if<std::string>(&entry.content);
    if (word && (*word == "empty" || *word == "clear film")) return carrier_in(*word, entry.place);
    refuse_value(entry, "\"empty\", \"clear film\", or the density of the film in it, 0 to 2");
}

std::string map_of(const TomlValue& entry) {
    const auto* path = std::get_if<std::string>(&entry.content);
    if (!path || path->empty() || !is_plain_line(*path))
        refuse_value(entry, "a picture beside the pack's file (\"edge-fog.png\")");
    return *path;
}

// Words and the anchor's yes or no; false where the key is none of them.
bool read_word(Pack& pack, const std::string& name, const TomlValue& entry) {
    const auto choose = [&](std::span<const std::string> words) {
        const Stated word = stated(entry, false);
        remember(pack, name, word.knowledge);
        return choice_of(word.value, words);
    };
    if (name == "paper.contrast")
        pack.contrast = Contrast(choose(contrast_words()));
    else if (name == "paper.surface")
        pack.surface = Surface(choose(surface_words()));
    else if (name == "restrainer.agent")
        pack.darkroom.restrainer_agent = RestrainerAgent(choose(agent_words()));
    else if (name == "enlarger.head")
        pack.darkroom.head = Head(choose(head_words()));
    else if (name == "edge_fog.map")
        pack.edge_fog.map = map_of(entry);
    else if (name == "anchor.known")
        pack.darkroom.anchored = truth_of(entry);
    else if (name == "anchor.carrier")
        pack.darkroom.enlarger.anchor_carrier = carrier_of(entry);
    else
        return false;
    return true;
}

[[noreturn]] void refuse_key(const TomlSection& section, const TomlValue& entry) {
    std::vector<std::string> keys;
    for (const auto word : kWordNames)
        if (word.starts_with(section.name + ".")) keys.emplace_back(word.substr(section.name.size() + 1));
    for (const auto& row : pack_numbers()) {
        if (row.section == section.name) keys.emplace_back(row.key);
    }
    refuse_unknown(entry.place, "key in [" + section.name + "]:", entry.key, keys);
}

void read_section(Pack& pack, const TomlSection& section, std::set<std::string>& seen) {
    for (const auto& entry : section.values) {
        const std::string name = section.name + "." + entry.key;
        seen.insert(name);
        if (read_word(pack, name, entry)) continue;
        const PackNumber* row = pack_number(name);
        if (!row) refuse_key(section, entry);
        const Stated number = stated(entry, true);
        const Limits limits{row->minimum, row->maximum, row->unit};
        row->in(pack) =
            name == "bath.parts" ? parts_of(number.value, limits) : number_of(number.value, limits);
        remember(pack, name, number.knowledge);
    }
}

void read_filter(Pack& pack, const TomlSection& section) {
    PackFilter filter;
    std::vector<std::pair<std::string, Knowledge>> known;
    std::set<std::string> seen;
    for (const auto& entry : section.values) {
        const auto rows = filter_numbers();
        const auto row =
            std::find_if(rows.begin(), rows.end(), [&](const auto& r) { return r.key == entry.key; });
        if (row == rows.end()) {
            std::vector<std::string> keys;
            for (const auto& r : rows) keys.emplace_back(r.key);
            refuse_unknown(entry.place, "key in [[filter]]:", entry.key, keys);
        }
        const Stated number = stated(entry, true);
        const Limits limits{row->minimum, row->maximum, row->unit};
        row->in(filter) =
            entry.key == "grade" ? grade_of(number.value, limits) : number_of(number.value, limits);
        known.emplace_back(entry.key, number.knowledge);
        seen.insert(entry.key);
    }
    for (const char* needed : {"grade", "balance"})
        if (!seen.contains(needed))
            throw Error(Fault::data, section.place, std::string("a [[filter]] without ") + needed,
                        "grade, balance and, if measured, speed");
    if (!pack.filters.empty() && filter.grade <= pack.filters.back().grade)
        throw Error(Fault::data, section.place, "filter grade " + shortest(filter.grade),
                    "above " + shortest(pack.filters.back().grade) + ", the filter before");
    pack.filters.push_back(filter);
    for (const auto& [key, knowledge] : known) remember(pack, filter_number_name(filter, key), knowledge);
}

[[noreturn]] void refuse_section(const TomlSection& section) {
    std::vector<std::string> names;
    for (const auto& known : pack_sections()) names.emplace_back(known.name);
    for (const char* name : {"filter", "readings", "fit"}) names.emplace_back(name);
    refuse_unknown(section.place, "section", section.name, names);
}

}  // namespace

Pack parse_pack(std::string_view text, const std::string& place) {
    const TomlFile file = parsed_toml(text, place);
    check_version(file, kVersionKey, kPackVersion);
    Pack pack;
    std::set<std::string> seen;
    read_head(pack, file);
    const auto known = pack_sections();
    for (const auto& section : file.sections) {
        const bool is_fitted = section.name == "readings" || section.name == "fit";
        const bool is_plain = is_fitted || std::any_of(known.begin(), known.end(),
                                                       [&](const auto& s) { return s.name == section.name; });
        if (!is_plain && section.name != "filter") refuse_section(section);
        if (section.repeated == is_plain)
            throw Error(Fault::data, section.place, is_plain ? "[[" + section.name + "]]" : "[filter]",
                        is_plain ? "[" + section.name + "], once" : "[[filter]]");
        if (section.name == kDepartureSection)
            read_departure(pack, section);
        else if (section.name == "readings")
            read_readings(pack, section);
        else if (section.name == "fit")
            read_fit(pack, section);
        else if (is_plain)
            read_section(pack, section, seen);
        else
            read_filter(pack, section);
    }
    if (!seen.contains("paper.black")) pack.black_density = surface_defaults(pack.surface).black_density;
    if (!seen.contains("paper.surface_light"))
        pack.sheet.surface = surface_light_over(pack.surface, pack.black_density);
    const RestrainerDefaults restrainer = restrainer_defaults(pack.darkroom.restrainer_agent);
    if (!seen.contains("restrainer.stock_percent"))
        pack.darkroom.restrainer_stock_percent = restrainer.stock_percent;
    if (!seen.contains("restrainer.half_ml_l")) pack.restrainer.half_ml_l = restrainer.half_ml_l;
    if (!seen.contains("enlarger.callier"))
        pack.darkroom.enlarger.callier = head_defaults(pack.darkroom.head).callier;
    check(pack, place);
    return pack;
}

Pack read_pack(const std::filesystem::path& path) {
    Pack pack = parse_pack(
        read_text(path, kLargestFile, "the file of a pack, as fogproof pack new writes it"), path.string());
    if (std::string& map = pack.edge_fog.map; !map.empty())
        map = path_beside(path.parent_path(), map).string();
    return pack;
}

Pack with_map_as_from(const std::filesystem::path& folder, Pack pack) {
    std::error_code unknown;
    if (std::string& map = pack.edge_fog.map; !map.empty()) {
        const auto near = std::filesystem::proximate(map, folder.empty() ? "." : folder, unknown);
        if (!unknown && !near.empty()) map = near.string();
    }
    return pack;
}

}  // namespace fogproof::pack
