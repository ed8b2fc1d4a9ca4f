// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "bleach/dilution.hpp"
#include "fogproof/base/error.hpp"
#include "pack/grade_words.hpp"
#include "pack/toml_file.hpp"

namespace fogproof::pack {
namespace {

constexpr std::size_t kShownLength = 60;

std::string escaped(std::string_view text, bool keep_line_breaks) {
    constexpr std::string_view kHex = "0123456789ABCDEF";
    std::string out;
    for (const char c : text) {
        const auto code = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') {
            out.append({'\\', c});
        } else if (c == '\n' && keep_line_breaks) {
            out.push_back(c);
        } else if (code < 0x20 || code == 0x7f) {
            out.append("\\u00").append({kHex[code >> 4], kHex[code & 15]});
        } else {
            out.push_back(c);
        }
    }
    return out;
}

struct Shown {
    std::string operator()(double value) const { return shortest(value); }
    std::string operator()(bool value) const { return value ? "true" : "false"; }
    std::string operator()(const std::string& value) const {
        if (value.size() > kShownLength) return "a text of " + std::to_string(value.size()) + " bytes";
        return '"' + escaped(value, false) + '"';
    }
    std::string operator()(const TomlStranger& value) const { return value.kind; }
    std::string operator()(const std::vector<double>&) const { return "a list"; }
    std::string operator()(const std::vector<TomlValue>&) const { return "a table"; }
};

// Keys may be any text in TOML; a message stays one line whatever stands in them.
std::string shown_name(const std::string& name) {
    const bool bare = !name.empty() && std::all_of(name.begin(), name.end(), [](unsigned char c) {
        return std::isalnum(c) || c == '_' || c == '-' || c == '.';
    });
    return bare && name.size() <= kShownLength ? name : Shown{}(name);
}

}  // namespace

void refuse_value(const TomlValue& value, const std::string& allowed) {
    throw Error(Fault::data, value.place, shown_name(value.key) + " = " + std::visit(Shown{}, value.content),
                allowed);
}

void check_version(const TomlFile& file, const std::string& key, int version) {
    const std::string allowed = key + " = " + std::to_string(version);
    const auto stated = std::find_if(file.values.begin(), file.values.end(),
                                     [&](const TomlValue& value) { return value.key == key; });
    if (stated == file.values.end())
        throw Error(Fault::data, file.place, "does not say " + key, allowed + " above the first section");
    const auto* number = std::get_if<double>(&stated->content);
    if (!number || *number != version) refuse_value(*stated, allowed);
}

std::string limits_in_words(const Limits& limits) {
    if (limits.are_grades) return grade_name(limits.minimum) + " to " + grade_name(limits.maximum, 0);
    std::string words = shortest(limits.minimum) + " to " + shortest(limits.maximum);
    if (!limits.unit.empty()) words.append(" ").append(limits.unit);
    return words;
}

bool within(double value, const Limits& limits) {
    return value >= limits.minimum && value <= limits.maximum;
}

double number_of(const TomlValue& value, const Limits& limits) {
    const auto* number = std::get_if<double>(&value.content);
    if (!number || !within(*number, limits)) refuse_value(value, limits_in_words(limits));
    return *number;
}

std::vector<double> numbers_of(const TomlValue& value, const Limits& limits, std::size_t least,
                               std::size_t most) {
    const auto* list = std::get_if<std::vector<double>>(&value.content);
    const auto allowed = [&] {
        return (least == most ? std::to_string(least)
                              : std::to_string(least) + " to " + std::to_string(most)) +
               " numbers of " + limits_in_words(limits) + ", as [A, B]";
    };
    if (!list || list->size() < least || list->size() > most) refuse_value(value, allowed());
    for (const double number : *list)
        if (!within(number, limits))
            throw Error(Fault::data, value.place, shown_name(value.key) + " holds " + shortest(number),
                        limits_in_words(limits));
    return *list;
}

double parts_of(const TomlValue& value, const Limits& limits) {
    const auto* text = std::get_if<std::string>(&value.content);
    const auto parts = text ? dilution_parts(*text) : std::nullopt;
    if (!parts) return number_of(value, limits);
    TomlValue plain = value;
    plain.content = *parts;
    return number_of(plain, limits);
}

double grade_of(const TomlValue& value, Limits limits) {
    limits.are_grades = true;
    const auto* text = std::get_if<std::string>(&value.content);
    const auto grade = text ? grade_in(*text) : std::nullopt;
    if (text && !grade) refuse_value(value, kGradesAllowed);
    if (!grade) return number_of(value, limits);
    TomlValue plain = value;
    plain.content = *grade;
    return number_of(plain, limits);
}

std::string grade_entry(double grade) {
    return grade == kGrade00 ? toml_text(grade_name(grade)) : shortest(grade);
}

bool truth_of(const TomlValue& value) {
    const auto* truth = std::get_if<bool>(&value.content);
    if (!truth) refuse_value(value, "true or false");
    return *truth;
}

std::string text_of(const TomlValue& value) {
    const auto* text = std::get_if<std::string>(&value.content);
    if (!text) refuse_value(value, "text in quotes");
    return *text;
}

std::size_t choice_of(const TomlValue& value, std::span<const std::string> words) {
    const auto* text = std::get_if<std::string>(&value.content);
    const auto chosen = text ? std::find(words.begin(), words.end(), *text) : words.end();
    if (chosen == words.end()) {
        std::string allowed;
        for (const auto& word : words) allowed.append(allowed.empty() ? "" : ", ").append('"' + word + '"');
        refuse_value(value, allowed);
    }
    return std::size_t(chosen - words.begin());
}

void refuse_unknown(const std::string& place, const std::string& what, const std::string& name,
                    std::span<const std::string> candidates) {
    const auto nearest = nearest_word(name, candidates);
    const std::string found = "unknown " + what + " " + shown_name(name);
    if (nearest) throw Error(Fault::data, place, found, Advice{"nearest is " + *nearest});
    throw Error(Fault::data, place, found, listed(candidates));
}

std::string toml_text(std::string_view text) {
    if (text.find('\n') == std::string_view::npos) return '"' + escaped(text, false) + '"';
    return "\"\"\"\n" + escaped(text, true) + "\"\"\"";
}

}  // namespace fogproof::pack
