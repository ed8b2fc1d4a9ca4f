// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/pack/file.hpp"
#include "fogproof/pack/schema.hpp"
#include "pack/pack_format.hpp"
#include "pack/toml_file.hpp"

namespace fogproof {
namespace {

constexpr std::size_t kLineLength = 100;

// Text as comment lines, broken between words.
std::string comment(std::string_view text) {
    std::string lines, line = "#";
    while (!text.empty()) {
        const auto cut = std::min(text.find(' '), text.size());
        if (line.size() + 1 + cut > kLineLength) {
            lines += line + "\n";
            line = "#";
        }
        line.append(" ").append(text.substr(0, cut));
        text.remove_prefix(std::min(cut + 1, text.size()));
    }
    return lines + line + "\n";
}

// A plain value counts as given, so only that may stand plain.
std::string entry(std::string_view key, const std::string& value, const Knowledge& known) {
    std::string line = std::string(key) + " = ";
    if (known == Knowledge{Origin::given, std::nullopt}) return line + value + "\n";
    line += "{ value = " + value;
    if (known.deviation) line += ", sd = " + shortest(*known.deviation);
    return line + ", from = \"" + origin_words()[std::size_t(known.origin)] + "\" }\n";
}

template <class Owner>
std::string meaning(const NumberRow<Owner>& row) {
    return comment(std::string(row.description) + " " +
                   limits_in_words({row.minimum, row.maximum, row.unit}) + ".");
}

std::string words_of(std::string_view section, const Pack& pack) {
    if (section == "paper")
        return comment("Contrast: graded or variable. Surface: gloss, semi-matt or matt.") +
               entry("contrast", toml_text(contrast_words()[std::size_t(pack.contrast)]),
                     pack.known("paper.contrast")) +
               entry("surface", toml_text(surface_words()[std::size_t(pack.surface)]),
                     pack.known("paper.surface"));
    if (section == "anchor")
        return comment("true once an exposure at this setting was measured; otherwise answers come in stops.") +
               "known = " + (pack.anchored ? "true" : "false") + "\n";
    return {};
}

std::string filters_of(const Pack& pack) {
    if (pack.filters.empty()) return {};
    std::string text = "\n" + comment("Filters as this paper sees them, softest first.");
    for (const auto& row : filter_numbers())
        text += comment(std::string(row.key) + ": " + std::string(row.description) + " " +
                        limits_in_words({row.minimum, row.maximum, row.unit}) + ".");
    for (const auto& filter : pack.filters) {
        text += "[[filter]]\n";
        for (const auto& row : filter_numbers())
            text += entry(row.key, shortest(row.of(filter)), pack.known(filter_number_name(filter, row.key)));
    }
    return text;
}

}  // namespace

std::string written(const Pack& pack) {
    check(pack, pack.name);
    std::string text = comment("One pack of paper. A plain value is given by the pack's owner.") +
                       comment("from = \"measured\": read off this pack. from = \"assumed\": a default, "
                               "nobody measured it. sd: one standard deviation.") +
                       std::string(kVersionKey) + " = " + std::to_string(kPackVersion) + "\n" +
                       "name = " + toml_text(pack.name) + "\n" + "notes = " + toml_text(pack.notes) + "\n";
    for (const auto& section : pack_sections()) {
        text += "\n" + comment(section.description) + "[" + std::string(section.name) + "]\n" +
                words_of(section.name, pack);
        for (const auto& row : pack_numbers()) {
            if (row.section != section.name) continue;
            text += meaning(row) + entry(row.key, shortest(row.of(pack)), pack.known(row.name()));
        }
    }
    return text + filters_of(pack);
}

}  // namespace fogproof
