// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/assumptions.hpp"

#include <array>
#include <vector>

#include "base/words.hpp"
#include "pack/schema.hpp"

namespace fogproof::report {
namespace {

// The numbers of one origin as "section (key, key)"; a section that has them all is named alone.
std::string numbers_of(const Pack& pack, Origin origin) {
    std::vector<std::string> sections;
    for (const auto& section : pack_sections()) {
        std::vector<std::string> keys;
        std::size_t all = 0;
        for (const auto& number : pack_numbers()) {
            if (number.section != section.name || is_departure(number) || !is_listed(pack, number)) continue;
            ++all;
            if (pack.known(number.name()).origin == origin) keys.emplace_back(number.key);
        }
        if (keys.empty()) continue;
        sections.push_back(std::string(section.name) + (keys.size() == all ? "" : " (" + listed(keys) + ")"));
    }
    return listed(sections);
}

}  // namespace

std::string assumptions(const Pack& pack) {
    std::string text;
    const std::array<std::pair<const char*, Origin>, 4> kinds{{{"Measured: ", Origin::measured},
                                                               {"Partly measured: ", Origin::nudged},
                                                               {"Given: ", Origin::given},
                                                               {"Assumed, not measured: ", Origin::assumed}}};
    for (const auto& [words, origin] : kinds)
        if (const auto numbers = numbers_of(pack, origin); !numbers.empty())
            text += (text.empty() ? "" : " ") + std::string(words) + numbers + ".";
    return text;
}

}  // namespace fogproof::report
