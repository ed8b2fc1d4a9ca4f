// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/assumptions.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include "base/words.hpp"
#include "pack/schema.hpp"
#include "report/number_words.hpp"

namespace fogproof::report {
namespace {

// Without an anchor no seconds are told, so that nothing comes of how they were measured.
bool is_of_use(const Pack& pack, const PackNumber& number) {
    return pack.darkroom.anchored || (number.section != "anchor" && number.section != "speed");
}

// The numbers of one origin as "section (word, word)"; a section that has them all is named alone.
std::string numbers_of(const Pack& pack, Origin origin) {
    std::vector<std::string> sections;
    for (const auto& section : pack_sections()) {
        std::vector<std::string> words;
        bool is_whole = true;
        for (const auto& number : pack_numbers()) {
            if (number.section != section.name || is_departure(number) || !is_listed(pack, number) ||
                !applies(pack, number) || !is_of_use(pack, number))
                continue;
            if (pack.known(number.name()).origin != origin)
                is_whole = false;
            else if (std::string word(number_words(number)); std::ranges::find(words, word) == words.end())
                words.push_back(std::move(word));
        }
        if (words.empty()) continue;
        sections.push_back(std::string(section_words(section.name)) +
                           (is_whole ? "" : " (" + listed(words) + ")"));
    }
    return listed(sections);
}

}  // namespace

std::string assumptions(const Pack& pack) {
    std::string text;
    const std::array<std::pair<const char*, Origin>, 4> kinds{{{"Measured: ", Origin::measured},
                                                               {"Partly measured: ", Origin::partly_measured},
                                                               {"Given: ", Origin::given},
                                                               {"Assumed, not measured: ", Origin::assumed}}};
    for (const auto& [words, origin] : kinds)
        if (const auto numbers = numbers_of(pack, origin); !numbers.empty())
            text += (text.empty() ? "" : " ") + std::string(words) + numbers + ".";
    return text;
}

}  // namespace fogproof::report
