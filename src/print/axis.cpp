// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "print/axis.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/grade_words.hpp"
#include "print/amounts.hpp"

namespace fogproof::print {
namespace {

// In the order of AxisQuantity.
const std::array<std::string, 6> kNames{"grade", "exposure", "restrainer", "develop", "bleach", "redevelop"};

// A list in which a decimal comma has come apart ("1,5s,3s") has values without the unit of the others, or
// the same value twice ("1,5,2,5").
void refuse_torn_values(AxisQuantity quantity, const std::vector<std::string>& values,
                        const std::string& place) {
    const auto has_unit = [](const std::string& value) {
        return !value.empty() && value.find_last_of("0123456789.") != value.size() - 1;
    };
    const auto is_bare = [&](const std::string& value) { return value != "0" && !has_unit(value); };
    const auto with = std::ranges::find_if(values, has_unit), without = std::ranges::find_if(values, is_bare);
    const std::string name = name_of(quantity);
    if (quantity != AxisQuantity::exposure && quantity != AxisQuantity::grade && with != values.end() &&
        without != values.end())
        throw Error(Fault::usage, place, name + "=" + *without + " has no unit beside " + *with,
                    "a unit behind every value, and a point in a decimal: 1.5s");
    for (auto value = values.begin(); value != values.end(); ++value)
        if (std::find(values.begin(), value, *value) != value)
            throw Error(Fault::usage, place, name + "=" + *value + " is there twice",
                        "different values, and a point in a decimal: 2.5");
}

}  // namespace

std::string name_of(AxisQuantity quantity) {
    return kNames[std::size_t(quantity)];
}

AxisValue axis_value(AxisQuantity quantity, std::string told, const std::string& place) {
    const auto amount = [&]() -> AxisAmount {
        const auto any_of = [](const auto& amounts) {
            return std::visit([](const auto& one) -> AxisAmount { return one; }, amounts);
        };
        switch (quantity) {
            case AxisQuantity::grade:
                return grade_told(told, place);
            case AxisQuantity::exposure:
                return any_of(exposure_amount(told, place));
            case AxisQuantity::restrainer:
                return plain_amount(told, "ml", place);
            case AxisQuantity::bleach:
                return any_of(bleach_amount(told, place));
            case AxisQuantity::develop:
            case AxisQuantity::redevelop:
                break;
        }
        return Seconds{plain_amount(told, "s", place)};
    }();
    return {std::move(told), amount};
}

Recipe Axis::applied(Recipe recipe, std::size_t index) const {
    const AxisAmount& amount = values.at(index).amount;
    const std::string place = name_of(quantity);
    switch (quantity) {
        case AxisQuantity::grade:
            for (auto& exposure : recipe.exposures) exposure.grade = std::get<double>(amount);
            break;
        case AxisQuantity::exposure:
            if (const auto* stops = std::get_if<Stops>(&amount))
                recipe = with_exposure(std::move(recipe), *stops, place);
            else
                recipe = with_exposure(std::move(recipe), std::get<Seconds>(amount), place);
            break;
        case AxisQuantity::restrainer:
            recipe.restrainer_ml_l = std::get<double>(amount);
            break;
        case AxisQuantity::develop:
            recipe.develop_s = std::get<Seconds>(amount).value;
            break;
        case AxisQuantity::bleach:
            if (const auto* percent = std::get_if<ClearingPercent>(&amount))
                recipe.bleach = *percent;
            else
                recipe.bleach = std::get<Seconds>(amount);
            break;
        case AxisQuantity::redevelop:
            recipe.redevelop_s = std::get<Seconds>(amount).value;
            break;
    }
    check(recipe, place);
    return recipe;
}

std::string Axis::in_words() const {
    std::vector<std::string> told;
    for (const AxisValue& value : values) told.push_back(value.told);
    return name_of(quantity) + "=" + listed(told);
}

std::vector<Recipe> recipes_over(const Recipe& base, const Axis& across, const Axis& down) {
    std::vector<Recipe> recipes;
    for (std::size_t y = 0; y < down.values.size(); ++y)
        for (std::size_t x = 0; x < across.values.size(); ++x)
            recipes.push_back(across.applied(down.applied(base, y), x));
    return recipes;
}

Axis axis_in(std::string_view text, const std::string& place) {
    const auto cut = text.find('=');
    const std::string name(trimmed(text.substr(0, cut)));
    std::size_t known = 0;
    while (known < kNames.size() && kNames[known] != name) ++known;
    if (known == kNames.size()) {
        const auto near = nearest_word(name, kNames);
        throw Error(Fault::usage, place, "\"" + name + "\" is no axis" + (near ? ", perhaps " + *near : ""),
                    listed(kNames));
    }
    std::vector<std::string> told;
    if (cut != std::string_view::npos)
        for (const auto& value : split(text.substr(cut + 1), ',')) told.emplace_back(trimmed(value));
    return axis_of(AxisQuantity(known), told, place);
}

Axis axis_of(AxisQuantity quantity, const std::vector<std::string>& told, const std::string& place) {
    const std::string name = name_of(quantity);
    if (told.empty() || told.size() > kMostAxisValues)
        throw Error(Fault::usage, place, std::to_string(told.size()) + " values for " + name,
                    "1 to " + std::to_string(kMostAxisValues) + " values (" + name + "=A,B,C)");
    refuse_torn_values(quantity, told, place);
    Axis axis{quantity, {}};
    for (std::size_t i = 0; i < told.size(); ++i) {
        axis.values.push_back(axis_value(quantity, told[i], name));
        static_cast<void>(axis.applied(Recipe{}, i));
    }
    return axis;
}

}  // namespace fogproof::print
