// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/axis.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "fogproof/base/error.hpp"
#include "fogproof/base/words.hpp"
#include "fogproof/pack/grade_words.hpp"
#include "fogproof/print/amounts.hpp"
#include "fogproof/print/print_steps.hpp"

namespace fogproof {
namespace {

// In the order of AxisQuantity.
const std::array<std::string, 6> kNames{"grade", "exposure", "restrainer", "develop", "bleach", "redevelop"};

// A list in which a decimal comma has come apart ("1,5s,3s") has values without the unit of the others, or
// the same value twice ("1,5,2,5").
void refuse_torn_values(const Axis& axis, const std::string& place) {
    const auto& values = axis.values;
    const auto has_unit = [](const std::string& value) {
        return !value.empty() && value.find_last_of("0123456789.") != value.size() - 1;
    };
    const auto is_bare = [&](const std::string& value) { return value != "0" && !has_unit(value); };
    const auto with = std::ranges::find_if(values, has_unit), without = std::ranges::find_if(values, is_bare);
    const std::string name = name_of(axis.quantity);
    if (axis.quantity != AxisQuantity::exposure && axis.quantity != AxisQuantity::grade &&
        with != values.end() && without != values.end())
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

Recipe Axis::applied(Recipe recipe, std::size_t index) const {
    const std::string& value = values.at(index);
    const std::string place = name_of(quantity);
    switch (quantity) {
        case AxisQuantity::grade: {
            const double grade = grade_told(value, place);
            for (auto& exposure : recipe.exposures) exposure.grade = grade;
            break;
        }
        case AxisQuantity::exposure:
            recipe = with_exposure(std::move(recipe), exposure_amount(value, place), place);
            break;
        case AxisQuantity::restrainer:
            recipe.restrainer_ml_l = plain_amount(value, "ml", place);
            break;
        case AxisQuantity::develop:
            recipe.develop_s = plain_amount(value, "s", place);
            break;
        case AxisQuantity::bleach:
            recipe.bleach = bleach_amount(value, place);
            break;
        case AxisQuantity::redevelop:
            recipe.redevelop_s = plain_amount(value, "s", place);
            break;
    }
    check(recipe, place);
    return recipe;
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
    Axis axis{AxisQuantity(known), {}};
    if (cut != std::string_view::npos)
        for (const auto& value : split(text.substr(cut + 1), ',')) axis.values.emplace_back(trimmed(value));
    if (axis.values.empty() || axis.values.size() > kMostAxisValues)
        throw Error(Fault::usage, place, std::to_string(axis.values.size()) + " values for " + name,
                    "1 to " + std::to_string(kMostAxisValues) + " values (" + name + "=A,B,C)");
    refuse_torn_values(axis, place);
    for (std::size_t i = 0; i < axis.values.size(); ++i) static_cast<void>(axis.applied(Recipe{}, i));
    return axis;
}

}  // namespace fogproof
