// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/typed_values.hpp"

#include <cmath>
#include <optional>
#include <string>
#include <string_view>

#include "base/decimal_comma.hpp"
#include "base/shortest.hpp"
#include "base/words.hpp"
#include "base/written_lengths.hpp"
#include "base/written_time.hpp"
#include "bleach/dilution.hpp"
#include "fogproof/base/error.hpp"

namespace fogproof::cli {
namespace {

constexpr const char* kEmpty = "has an empty value; expected: a value, or leave the option out";
constexpr double kMostWhole = 2e9;

struct Kind {
    const char* type;  ///< as CLI11 or we name it
    const char* unit;  ///< allowed behind the number
    const char* allowed;
};
constexpr Kind kKinds[] = {
    {"FLOAT", "", "a number, as 2 or 2.5"},
    {"INT", "", "a whole number, as 4"},
    {kDilution, "", "a dilution, as 1+50, or its second number alone"},
    {kSeconds, "", "a time, as 90, 90s, 1:30 or 2min"},
    {kMillilitres, "ml", "millilitres per litre, as 20 or 20ml"},
    {kMillimetres, "", "a length in mm, as 100, or with its unit, as 10cm or 4in"},
};

std::optional<double> number_of_kind(std::string_view text, const Kind& kind) {
    if (std::string_view(kind.type) == kDilution) return dilution_parts(text);
    if (std::string_view(kind.type) == kSeconds) return seconds_in(text);
    if (std::string_view(kind.type) == kMillimetres) {
        const auto lengths = millimetres_in(text);
        return lengths && lengths->size() == 1 ? std::optional(lengths->front()) : std::nullopt;
    }
    text = trimmed(text);
    if (text.ends_with(kind.unit)) text.remove_suffix(std::string_view(kind.unit).size());
    auto number = number_in(text);
    const bool whole = std::string_view(kind.type) == "INT";
    if (number && whole && (*number != std::trunc(*number) || std::abs(*number) > kMostWhole)) number.reset();
    return number;
}

// What is wrong with a value, as found and allowed; where nothing is, the value becomes plain digits.
std::string held_number(std::string& value, const Kind& kind) {
    const auto number = number_of_kind(value, kind);
    if (!number)
        return "\"" + value + "\" is no number" + comma_advice(value) + "; expected: " + kind.allowed;
    const bool whole = std::string_view(kind.type) == "INT";
    value = whole ? std::to_string(long(*number)) : shortest(*number);
    return {};
}

void hold(CLI::Option& option) {
    const bool is_named = !option.get_lnames().empty() || !option.get_snames().empty();
    if (!is_named || option.get_items_expected_max() == 0) return;
    option.allow_extra_args(false);  // which would tear a value in brackets, "[a,b]", in two
    const std::string type = option.get_type_name();
    for (const Kind& kind : kKinds)
        if (type == kind.type)
            option.transform(CLI::Validator([&kind](std::string& value) { return held_number(value, kind); },
                                            std::string()));
    option.transform(CLI::Validator(
        [](std::string& value) { return std::string(value.empty() ? kEmpty : ""); }, std::string()));
}

}  // namespace

void refuse_empty_values(std::span<char* const> words) {
    for (const std::string_view word : words.subspan(words.empty() ? 0 : 1)) {
        if (word == "--") return;
        if (word.starts_with("--") && word.find('=') == word.size() - 1)
            throw Error(Fault::usage, std::string(word.substr(0, word.size() - 1)), kEmpty);
    }
}

void hold_values(CLI::App& program) {
    for (CLI::Option* option : program.get_options()) hold(*option);
    for (CLI::App* verb : program.get_subcommands([](CLI::App*) { return true; })) hold_values(*verb);
}

}  // namespace fogproof::cli
