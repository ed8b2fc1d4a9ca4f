// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/toml_file.hpp"

#include <toml++/toml.h>

#include <algorithm>
#include <tuple>

#include "base/decimal_comma.hpp"
#include "fogproof/base/error.hpp"
#include "pack/toml_depth.hpp"

namespace fogproof::pack {
namespace {

using Position = std::tuple<toml::source_index, toml::source_index>;

std::string at_line(const std::string& place, const toml::source_position& position) {
    return place + ":" + std::to_string(position.line);
}

// toml++ keeps tables sorted by key; messages and readers want the order of the file.
template <class Thing>
void restore_order(std::vector<std::pair<Position, Thing>>& things) {
    std::stable_sort(things.begin(), things.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
}

std::vector<TomlValue> values_of(const toml::table& table, const std::string& place);

bool is_of_numbers(const toml::array& list) {
    return std::ranges::all_of(list, [](const toml::node& node) { return node.is_number(); });
}

std::vector<double> numbers_in(const toml::array& list) {
    std::vector<double> numbers;
    for (const auto& node : list)
        numbers.push_back(node.is_integer() ? double(node.as_integer()->get())
                                            : node.as_floating_point()->get());
    return numbers;
}

TomlValue value_of(const toml::key& key, const toml::node& node, const std::string& place) {
    TomlValue value{std::string(key.str()), at_line(place, key.source().begin), TomlStranger{}};
    // Each kind by what it holds: toml++'s conversions give nothing where they would lose digits.
    if (const auto* whole = node.as_integer())
        value.content = double(whole->get());
    else if (const auto* number = node.as_floating_point())
        value.content = number->get();
    else if (const auto* truth = node.as_boolean())
        value.content = truth->get();
    else if (const auto* text = node.as_string())
        value.content = text->get();
    else if (const auto* table = node.as_table())
        value.content = values_of(*table, place);
    else if (const auto* list = node.as_array(); list && !list->empty() && is_of_numbers(*list))
        value.content = numbers_in(*list);
    else
        value.content = TomlStranger{node.is_array() ? "a list" : "a date or time"};
    return value;
}

std::vector<TomlValue> values_of(const toml::table& table, const std::string& place) {
    std::vector<std::pair<Position, TomlValue>> found;
    for (const auto& [key, node] : table) {
        const auto& at = key.source().begin;
        found.emplace_back(Position{at.line, at.column}, value_of(key, node, place));
    }
    restore_order(found);
    std::vector<TomlValue> values;
    for (auto& [position, value] : found) values.push_back(std::move(value));
    return values;
}

TomlFile file_of(const toml::table& table, const std::string& place) {
    std::vector<std::pair<Position, TomlValue>> values;
    std::vector<std::pair<Position, TomlSection>> sections;
    const auto add_section = [&](const toml::key& key, const toml::table& content, bool repeated) {
        const auto& at = repeated ? content.source().begin : key.source().begin;
        sections.emplace_back(
            Position{at.line, at.column},
            TomlSection{std::string(key.str()), at_line(place, at), repeated, values_of(content, place)});
    };
    for (const auto& [key, node] : table) {
        const auto* list = node.as_array();
        if (const auto* content = node.as_table()) {
            add_section(key, *content, false);
        } else if (list && !list->empty() && list->is_homogeneous(toml::node_type::table)) {
            for (const auto& element : *list) add_section(key, *element.as_table(), true);
        } else {
            const auto& at = key.source().begin;
            values.emplace_back(Position{at.line, at.column}, value_of(key, node, place));
        }
    }
    restore_order(values);
    restore_order(sections);
    TomlFile file{place, {}, {}};
    for (auto& [position, value] : values) file.values.push_back(std::move(value));
    for (auto& [position, section] : sections) file.sections.push_back(std::move(section));
    return file;
}

std::string in_one_line(std::string_view text) {
    std::string line(text);
    std::replace_if(
        line.begin(), line.end(), [](unsigned char c) { return c < 0x20 || c == 0x7f; }, ' ');
    return line;
}

// Counted from 1.
std::string_view line_of(std::string_view text, std::size_t number) {
    for (; number > 1 && text.find('\n') != std::string_view::npos; --number)
        text.remove_prefix(text.find('\n') + 1);
    return text.substr(0, text.find('\n'));
}

bool is_row_of_cells(std::string_view line) {
    return std::ranges::count(line, ',') > 1 && line.find('=') == std::string_view::npos;
}

}  // namespace

TomlFile parsed_toml(std::string_view text, const std::string& place) {
    refuse_deep_toml(text, place);
    try {
        return file_of(toml::parse(text), place);
    } catch (const toml::parse_error& fault) {
        const std::string_view line = line_of(text, fault.source().begin.line);
        throw Error(Fault::data, at_line(place, fault.source().begin), in_one_line(fault.description()),
                    has_decimal_comma(line) ? "a point in decimals, as in 0.35 (a decimal comma?)"
                    : is_row_of_cells(line) ? "TOML 1.0; this looks like a CSV file, of readings or labels"
                                            : "TOML 1.0, every key once");
    }
}

}  // namespace fogproof::pack
