// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/axis.hpp"

#include <array>

#include "fogproof/base/error.hpp"
#include "fogproof/base/words.hpp"
#include "fogproof/print/amounts.hpp"

namespace fogproof {
namespace {

// In the order of AxisQuantity.
const std::array<std::string, 6> kNames{"grade", "exposure", "restrainer", "develop", "bleach", "redevelop"};

}  // namespace

std::string name_of(AxisQuantity quantity) {
    return kNames[std::size_t(quantity)];
}

Recipe Axis::applied(Recipe recipe, std::size_t index) const {
    const std::string& value = values.at(index);
    const std::string place = name_of(quantity);
    switch (quantity) {
        case AxisQuantity::grade: {
            const double grade = plain_amount(value, "", place);
            for (auto& exposure : recipe.exposures) exposure.grade = grade;
            break;
        }
        case AxisQuantity::exposure:
            for (auto& exposure : recipe.exposures) exposure.amount = exposure_amount(value, place);
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
    for (std::size_t i = 0; i < axis.values.size(); ++i) static_cast<void>(axis.applied(Recipe{}, i));
    return axis;
}

}  // namespace fogproof
