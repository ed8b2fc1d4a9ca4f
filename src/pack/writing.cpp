// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>

#include "base/words.hpp"
#include "fogproof/pack/file.hpp"
#include "pack/carrier.hpp"
#include "pack/departure_text.hpp"
#include "pack/fit_record.hpp"
#include "pack/pack_format.hpp"
#include "pack/schema.hpp"
#include "pack/toml_file.hpp"

namespace fogproof::pack {
namespace {

constexpr std::size_t kLineLength = 100;

// Text as comment lines, broken between words.
std::string comment(std::string_view text) {
    std::string lines;
    std::size_t room = 0;
    while (!text.empty()) {
        const auto word = std::min(text.find(' '), text.size());
        if (word + 1 > room) {
            lines.append(lines.empty() ? "#" : "\n#");
            room = kLineLength - 1;
        }
        lines.append(1, ' ').append(text.substr(0, word));
        room -= std::min(word + 1, room);
        text.remove_prefix(std::min(word + 1, text.size()));
    }
    return lines.append(1, '\n');
}

// A plain value counts as given, so only that may stand plain.
std::string entry(std::string_view key, const std::string& value, const Knowledge& known) {
    std::string line(key);
    if (known == Knowledge{Origin::given, std::nullopt}) return line.append(" = ").append(value).append("\n");
    line.append(" = { value = ").append(value);
    if (known.deviation) line.append(", sd = ").append(shortest(*known.deviation));
    return line.append(", from = \"").append(origin_words()[std::size_t(known.origin)]).append("\" }\n");
}

template <class Owner>
std::string meaning(const NumberRow<Owner>& row, bool is_judgement) {
    std::string text(row.description);
    text.append("; ").append(limits_in_words({row.minimum, row.maximum, row.unit}));
    return comment(text.append(is_judgement ? ". Judgement." : "."));
}

std::string words_of(std::string_view section, const Pack& pack) {
    if (section == "paper")
        return comment("Contrast: " + listed(contrast_words()) + ". Surface: " + listed(surface_words()) +
                       ".") +
               entry("contrast", toml_text(contrast_words()[std::size_t(pack.contrast)]),
                     pack.known("paper.contrast")) +
               entry("surface", toml_text(surface_words()[std::size_t(pack.surface)]),
                     pack.known("paper.surface"));
    if (section == kEdgeFogSection && !pack.edge_fog.map.empty())
        return comment(
                   "Map: a picture of one sheet, black where its fog is the middle's, white the edge's.") +
               "map = " + toml_text(pack.edge_fog.map) + "\n";
    if (section == "restrainer")
        return comment("Agent: bromide, benzotriazole or unknown, which widens what is in doubt here.") +
               entry("agent", toml_text(agent_words()[std::size_t(pack.darkroom.restrainer_agent)]),
                     pack.known("restrainer.agent"));
    if (section == "enlarger")
        return comment(
                   "Head: diffuser, condenser or unknown, which widens the doubt of the Callier factor.") +
               entry("head", toml_text(head_words()[std::size_t(pack.darkroom.head)]),
                     pack.known("enlarger.head"));
    if (section == "anchor") {
        const std::string carrier = carrier_entry(pack.darkroom.enlarger.anchor_carrier);
        return comment("true once seconds at this setting were measured; until then answers come in stops.") +
               (pack.darkroom.anchored ? "known = true\n" : "known = false\n") +
               comment(
                   "The zero of all seconds, what lay in the carrier then: \"empty\", \"clear film\" like "
                   "the negatives', or the density of the film in it. Not told, it counts as clear film.") +
               (carrier.empty() ? "# carrier =\n" : "carrier = " + carrier + "\n");
    }
    return {};
}

std::string filters_of(const Pack& pack) {
    std::string text;
    if (!pack.filters.empty()) text.append("\n").append(comment("Filters of this pack, softest first."));
    for (const auto& filter : pack.filters) {
        text.append("[[filter]]\n");
        for (const auto& row : filter_numbers()) {
            if (&filter == &pack.filters.front()) text.append(meaning(row, false));
            const Knowledge known = pack.known(filter_number_name(filter, row.key));
            const double value = row.of(filter);
            text.append(entry(row.key, row.key == "grade" ? grade_entry(value) : shortest(value), known));
        }
    }
    return text;
}

std::string head_of(const Pack& pack) {
    return comment("One pack of paper. A plain value is given by the pack's owner.")
        .append(comment("from = \"measured\": read off this pack. from = \"partly-measured\": "
                        "readings narrowed it. from = \"assumed\": a default that nobody "
                        "measured. sd: one standard deviation."))
        .append(kVersionKey)
        .append(" = ")
        .append(std::to_string(kPackVersion))
        .append("\nname = ")
        .append(toml_text(pack.name))
        .append("\nnotes = ")
        .append(toml_text(pack.notes))
        .append("\n");
}

}  // namespace

std::string written(const Pack& pack) {
    check(pack, "pack");
    std::string text = head_of(pack);
    for (const auto& section : pack_sections()) {
        const auto first = std::ranges::find(pack_numbers(), section.name, &PackNumber::section);
        if (first != pack_numbers().end() && !is_listed(pack, *first)) continue;
        if (section.name == kDepartureSection) {
            text.append(departure_section(pack));
            continue;
        }
        text.append("\n").append(comment(section.description));
        text.append("[").append(section.name).append("]\n").append(words_of(section.name, pack));
        for (const auto& row : pack_numbers()) {
            if (row.section != section.name) continue;
            const Knowledge known = pack.known(row.name());
            text.append(meaning(row, row.doubt > 0 && known.origin == Origin::assumed));
            text.append(entry(row.key, shortest(row.of(pack)), known));
        }
    }
    return text.append(filters_of(pack)).append(fit_sections(pack));
}

}  // namespace fogproof::pack
