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
#include "print/local_entries.hpp"
#include "print/recipe_parts.hpp"
#include "print/toner_words.hpp"

namespace fogproof::print {
namespace {

constexpr double kMostTimes = 10;  // the amount of a local work

// In the order of AxisQuantity; a local work has names of its own.
const std::array<std::string, 7> kNames{"grade",  "exposure",  "restrainer", "develop",
                                        "bleach", "redevelop", "toner"};

std::string name_of(AxisQuantity quantity) {
    return kNames[std::size_t(quantity)];
}

// "0.5", "+1", "0.5stop", "8s", "50%".
AxisAmount local_amount(const std::string& told, const std::string& place) {
    if (const auto times = number_in(told); times && !told.starts_with('+')) {
        if (*times < 0 || *times > kMostTimes)
            throw Error(Fault::usage, place, "\"" + told + "\" times its amount",
                        "0 to " + decimal(kMostTimes, 0) + ", or stops (+1), seconds (8s), percent (50%)");
        return *times;
    }
    const auto any_of = [](const auto& amounts) {
        return std::visit([](const auto& one) -> AxisAmount { return one; }, amounts);
    };
    return told.ends_with('%') ? any_of(bleach_amount(told, place)) : any_of(exposure_amount(told, place));
}

// The only work that is called so. Whoever has a name is called by it alone.
LocalWork& work_called(std::vector<LocalWork>& works, const std::string& name, const std::string& place) {
    const auto is_it = [&](const LocalWork& work) { return called(work) == name; };
    const auto count = std::ranges::count_if(works, is_it);
    if (count != 1)
        throw Error(Fault::usage, place,
                    count == 0 ? "the recipe has no local work " + name
                               : std::to_string(count) + " local works are called " + name,
                    "a name for each work that is an axis (name = \"sky\" in [[local]])");
    return *std::ranges::find_if(works, is_it);
}

struct Times {
    double factor;
    std::variant<Stops, Seconds, ClearingPercent> operator()(auto amount) const {
        amount.value *= factor;
        return amount;
    }
};

void set_amount(LocalWork& work, const AxisAmount& amount, const std::string& place) {
    if (const auto* times = std::get_if<double>(&amount))
        work.amount = std::visit(Times{*times}, work.amount);
    else if (const auto* stops = std::get_if<Stops>(&amount))
        work.amount = *stops;
    else if (const auto* seconds = std::get_if<Seconds>(&amount))
        work.amount = *seconds;
    else
        work.amount = std::get<ClearingPercent>(amount);
    check(work, place);
}

// 0 s and 0 % of clearing are one bleach.
bool are_same(const AxisAmount& one, const AxisAmount& other) {
    const auto number = [](const AxisAmount& amount) {
        return std::visit(
            [](const auto& told) {
                if constexpr (requires { told.value; })
                    return double(told.value);
                else
                    return double(told);
            },
            amount);
    };
    const auto is_none = [&](const AxisAmount& amount) {
        return number(amount) == 0 &&
               (std::holds_alternative<Seconds>(amount) || std::holds_alternative<ClearingPercent>(amount));
    };
    return (one.index() == other.index() && number(one) == number(other)) || (is_none(one) && is_none(other));
}

// The same value twice, however it is written, as a decimal comma makes of "1,5,2,5".
void refuse_twins(const Axis& axis, const std::string& name, const std::string& place) {
    for (auto value = axis.values.begin(); value != axis.values.end(); ++value) {
        const auto twin = std::find_if(axis.values.begin(), value, [&](const AxisValue& earlier) {
            return are_same(earlier.amount, value->amount);
        });
        if (twin == value) continue;
        throw Error(Fault::usage, place,
                    name + "=" + value->told +
                        (twin->told == value->told ? " is there twice" : " is the same as " + twin->told),
                    "different values, and a point in a decimal: 2.5");
    }
}

// A list in which a decimal comma has come apart ("1,5s,3s") has values without the unit of the others.
void refuse_torn_values(AxisQuantity quantity, const std::string& name,
                        const std::vector<std::string>& values, const std::string& place) {
    const auto has_unit = [](const std::string& value) {
        return !value.empty() && (value.find_last_of("0123456789.") != value.size() - 1 ||
                                  value.find(':') != std::string::npos);  // 1:30 is a time as it stands
    };
    const auto is_bare = [&](const std::string& value) { return value != "0" && !has_unit(value); };
    const auto with = std::ranges::find_if(values, has_unit), without = std::ranges::find_if(values, is_bare);
    if (quantity != AxisQuantity::exposure && quantity != AxisQuantity::grade &&
        quantity != AxisQuantity::local && quantity != AxisQuantity::toner && with != values.end() &&
        without != values.end())
        throw Error(Fault::usage, place, name + "=" + *without + " has no unit beside " + *with,
                    "a unit behind every value, and a point in a decimal: 1.5s");
}

[[noreturn]] void refuse_axis(const std::string& name, std::span<const std::string> names,
                              const std::string& more, const std::string& place) {
    const auto near = nearest_word(name, names);
    throw Error(Fault::usage, place, "\"" + name + "\" is no axis" + (near ? ", perhaps " + *near : ""),
                listed(names) + more);
}

// What stands before and behind the equals sign.
struct Told {
    std::string name;
    std::vector<std::string> values;
};

Told parts_of(std::string_view text) {
    const auto cut = text.find('=');
    Told told{std::string(trimmed(text.substr(0, cut))), {}};
    if (cut != std::string_view::npos)
        for (const auto& value : split(text.substr(cut + 1), ',')) told.values.emplace_back(trimmed(value));
    return told;
}

Recipe with_value(Recipe recipe, const Axis& axis, std::size_t index) {
    const AxisAmount& amount = axis.values.at(index).amount;
    const std::string place = name_of(axis);
    switch (axis.quantity) {
        case AxisQuantity::local:
            set_amount(work_called(recipe.local, axis.work, place), amount, place);
            break;
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
        case AxisQuantity::toner:
            recipe.toner = std::get<Toner>(amount);
            break;
    }
    return recipe;
}

}  // namespace

std::span<const std::string> axis_names() {
    return kNames;
}

std::string name_of(const Axis& axis) {
    return axis.quantity == AxisQuantity::local ? axis.work : name_of(axis.quantity);
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
            case AxisQuantity::local:
                return local_amount(told, place);
            case AxisQuantity::toner:
                return toner_told(told, place);
            case AxisQuantity::develop:
            case AxisQuantity::redevelop:
                break;
        }
        return Seconds{plain_amount(told, "s", place)};
    }();
    return {std::move(told), amount};
}

Recipe Axis::applied(Recipe recipe, std::size_t index) const {
    recipe = with_value(std::move(recipe), *this, index);
    check(recipe, name_of(*this));
    return recipe;
}

std::string Axis::in_words() const {
    std::vector<std::string> told;
    for (const AxisValue& value : values) told.push_back(value.told);
    return name_of(*this) + "=" + listed(told);
}

std::vector<Recipe> recipes_over(const Recipe& base, const Axis& across, const Axis& down) {
    std::vector<Recipe> recipes;
    for (std::size_t y = 0; y < down.values.size(); ++y)
        for (std::size_t x = 0; x < across.values.size(); ++x)
            recipes.push_back(across.applied(down.applied(base, y), x));
    return recipes;
}

Axis axis_in(std::string_view text, const std::string& place, std::span<const std::string> names) {
    const Told told = parts_of(text);
    if (std::ranges::find(names, told.name) == names.end()) refuse_axis(told.name, names, "", place);
    const auto known = std::ranges::find(kNames, told.name);
    return axis_of(AxisQuantity(known - kNames.begin()), told.values, place);
}

Axis axis_in(std::string_view text, const std::string& place, const std::vector<LocalWork>& works) {
    const Told told = parts_of(text);
    if (const auto known = std::ranges::find(kNames, told.name); known != kNames.end())
        return axis_of(AxisQuantity(known - kNames.begin()), told.values, place);
    std::vector<std::string> names(kNames.begin(), kNames.end());
    for (const LocalWork& work : works) names.push_back(called(work));
    if (std::ranges::find(names, told.name) == names.end())
        refuse_axis(told.name, names, works.empty() ? "; or a local work of the recipe" : "", place);
    Axis axis = axis_of(AxisQuantity::local, told.values, place, told.name);
    Recipe recipe;
    recipe.local = works;
    for (std::size_t i = 0; i < axis.values.size(); ++i) static_cast<void>(axis.applied(recipe, i));
    return axis;
}

Axis axis_of(AxisQuantity quantity, const std::vector<std::string>& told, const std::string& place,
             const std::string& work) {
    const std::string name = quantity == AxisQuantity::local ? work : name_of(quantity);
    if (told.empty() || told.size() > kMostAxisValues)
        throw Error(Fault::usage, place, std::to_string(told.size()) + " values for " + name,
                    "1 to " + std::to_string(kMostAxisValues) + " values (" + name + "=A,B,C)");
    refuse_torn_values(quantity, name, told, place);
    Axis axis{quantity, {}, work};
    for (std::size_t i = 0; i < told.size(); ++i) {
        axis.values.push_back(axis_value(quantity, told[i], name));
        if (quantity == AxisQuantity::local) continue;
        if (const auto fault = number_fault(with_value(Recipe{}, axis, i)))
            throw Error(Fault::usage, place, name + "=" + told[i], fault->allowed);
    }
    refuse_twins(axis, name, place);
    return axis;
}

}  // namespace fogproof::print
