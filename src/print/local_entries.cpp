// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "print/local_entries.hpp"

#include <algorithm>
#include <array>
#include <optional>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/treatment_limits.hpp"
#include "print/recipe_parts.hpp"

namespace fogproof::print {
namespace {

using Kind = LocalWork::Kind;

// Judgement, wide; they keep slips of the pen out.
constexpr Limits kLocalStops{0, 10, "stops"};
constexpr Limits kLocalTime{0, 3600, "s"};
constexpr Limits kPercent{-100, 200, "%"};
constexpr Limits kSize{0, 200, "%"};
constexpr std::size_t kMostCorners = 200;
constexpr std::size_t kLongestName = 60;

const std::array<std::string, 3> kWorks{"burn", "dodge", "bleach"};
const std::array<std::string, 4> kEdges{"top", "bottom", "left", "right"};
constexpr char kWhereAllowed[] =
    "a mask (\"sky.png\"), { edge = \"top\", reach = 35, soft = 15 }, { oval = [X, Y, ACROSS, DOWN], soft = "
    "5 } "
    "or { polygon = [X, Y, X, Y, X, Y], soft = 5 }";

std::vector<std::string> keys_of(std::span<const TomlValue> values) {
    std::vector<std::string> keys;
    for (const auto& value : values) keys.push_back(value.key);
    return keys;
}

const TomlValue* value_in(std::span<const TomlValue> values, std::string_view key) {
    const auto found = std::ranges::find(values, key, &TomlValue::key);
    return found == values.end() ? nullptr : &*found;
}

double area_of(const std::vector<double>& corners) {
    double twice = 0;
    for (std::size_t i = 0; i < corners.size(); i += 2) {
        const std::size_t next = (i + 2) % corners.size();
        twice += corners[i] * corners[next + 1] - corners[next] * corners[i + 1];
    }
    return std::abs(twice) / 2;
}

MaskShape shape_of(const TomlValue& where, std::span<const TomlValue> values) {
    static const std::vector<std::string> kKeys{"edge", "reach", "soft", "oval", "polygon"};
    for (const auto& value : values)
        if (std::ranges::find(kKeys, value.key) == kKeys.end())
            refuse_unknown(value.place, "key in where:", value.key, kKeys);
    const TomlValue *edge = value_in(values, "edge"), *reach = value_in(values, "reach"),
                    *oval = value_in(values, "oval"), *polygon = value_in(values, "polygon"),
                    *soft = value_in(values, "soft");
    if (int(edge != nullptr) + int(oval != nullptr) + int(polygon != nullptr) != 1 ||
        (edge != nullptr) != (reach != nullptr))
        throw Error(Fault::data, where.place, "where = { " + listed(keys_of(values)) + " }", kWhereAllowed);
    MaskShape shape;
    if (edge != nullptr) {
        shape.kind = MaskShape::Kind(choice_of(*edge, kEdges));
        shape.at = {number_of(*reach, {0, 100, "%"})};
    } else if (oval != nullptr) {
        shape.kind = MaskShape::Kind::oval;
        shape.at = numbers_of(*oval, kPercent, 4, 4);
        if (shape.at[2] <= 0 || shape.at[3] <= 0)
            throw Error(Fault::data, oval->place, "an oval without a size",
                        "[X, Y, ACROSS, DOWN], its middle and its radii above 0, in percent");
    } else {
        shape.kind = MaskShape::Kind::polygon;
        shape.at = numbers_of(*polygon, kPercent, 6, 2 * kMostCorners);
        if (shape.at.size() % 2 != 0)
            throw Error(Fault::data, polygon->place,
                        "a polygon of " + std::to_string(shape.at.size()) + " numbers",
                        "two for each corner, X and Y in percent");
        if (!(area_of(shape.at) > 0))
            throw Error(Fault::data, polygon->place, "a polygon without an area",
                        "corners in their order around it");
    }
    if (soft != nullptr) shape.soft = number_of(*soft, {0, 100, "%"});
    return shape;
}

// The key that says how much, and the amount.
void set_amount(LocalWork& work, const TomlValue& entry) {
    const bool bleach = work.kind == Kind::bleach;
    if (entry.key == "stops")
        work.amount = Stops{number_of(entry, kLocalStops)};
    else if (entry.key == "time_s")
        work.amount = Seconds{number_of(entry, bleach ? kBleachTimeLimits : kLocalTime)};
    else
        work.amount = ClearingPercent{number_of(entry, kClearingLimits)};
}

std::string shape_text(const MaskShape& shape) {
    const auto list = [&] {
        std::vector<std::string> numbers;
        for (const double number : shape.at) numbers.push_back(shortest(number));
        return "[" + listed(numbers) + "]";
    };
    std::string text = "{ ";
    switch (shape.kind) {
        case MaskShape::Kind::oval:
            text += "oval = " + list();
            break;
        case MaskShape::Kind::polygon:
            text += "polygon = " + list();
            break;
        default:
            text += "edge = " + toml_text(kEdges[std::size_t(shape.kind)]) +
                    ", reach = " + shortest(shape.at.front());
    }
    return text + ", soft = " + shortest(shape.soft) + " }";
}

}  // namespace

LocalWork local_work_of(const TomlSection& section) {
    static const std::vector<std::string> kKeys{
        "work", "name", "where", "stops", "time_s", "clearing_percent", "grade"};
    for (const auto& entry : section.values)
        if (std::ranges::find(kKeys, entry.key) == kKeys.end())
            refuse_unknown(entry.place, "key in [[local]]:", entry.key, kKeys);
    const TomlValue *kind = value_in(section.values, "work"), *where = value_in(section.values, "where");
    if (kind == nullptr)
        throw Error(Fault::data, section.place, "[[local]] without work",
                    "work = \"burn\", \"dodge\" or \"bleach\"");
    LocalWork work;
    work.kind = Kind(choice_of(*kind, kWorks));
    const std::string words = "a local " + name_of(work.kind);
    if (where == nullptr) throw Error(Fault::data, section.place, words + " without where", kWhereAllowed);
    if (const auto* path = std::get_if<std::string>(&where->content); path && !path->empty())
        work.where = MaskPicture{*path};
    else if (const auto* values = std::get_if<std::vector<TomlValue>>(&where->content))
        work.where = shape_of(*where, *values);
    else
        refuse_value(*where, kWhereAllowed);

    const bool bleach = work.kind == Kind::bleach;
    const std::string amounts = bleach ? "time_s or clearing_percent" : "stops or time_s";
    const TomlValue* told = nullptr;
    for (const auto& entry : section.values) {
        if (entry.key == "name") {
            work.name = text_of(entry);
            if (work.name.empty() || work.name.size() > kLongestName)
                refuse_value(entry, "1 to " + std::to_string(kLongestName) + " letters");
        }
        if (entry.key == "grade") {
            if (work.kind != Kind::burn)
                throw Error(Fault::data, entry.place, "grade of " + words, "for a burn only");
            work.grade = grade_of(entry, kGradeLimits);
        }
        if (entry.key != "stops" && entry.key != "time_s" && entry.key != "clearing_percent") continue;
        if (entry.key == (bleach ? "stops" : "clearing_percent"))
            throw Error(Fault::data, entry.place, entry.key + " of " + words, amounts);
        if (told != nullptr)
            throw Error(Fault::data, entry.place, entry.key + " beside " + told->key,
                        "one of them in [[local]]");
        set_amount(work, entry);
        told = &entry;
    }
    if (told == nullptr) throw Error(Fault::data, section.place, words + " without an amount", amounts);
    return work;
}

std::string text_of(const LocalWork& work) {
    std::string text = "[[local]]\nwork = " + toml_text(name_of(work.kind)) + "\n";
    if (!work.name.empty()) text += "name = " + toml_text(work.name) + "\n";
    const auto* picture = std::get_if<MaskPicture>(&work.where);
    text += "where = " + (picture ? toml_text(picture->path) : shape_text(std::get<MaskShape>(work.where))) +
            "\n";
    if (const auto* stops = std::get_if<Stops>(&work.amount))
        text += "stops = " + shortest(stops->value) + "\n";
    else if (const auto* time = std::get_if<Seconds>(&work.amount))
        text += "time_s = " + shortest(time->value) + "\n";
    else
        text += "clearing_percent = " + shortest(std::get<ClearingPercent>(work.amount).value) + "\n";
    if (work.grade) text += "grade = " + grade_entry(*work.grade) + "\n";
    return text;
}

void check(const LocalWork& work, const std::string& place) {
    const bool bleach = work.kind == Kind::bleach;
    const bool fits = bleach ? !std::holds_alternative<Stops>(work.amount)
                             : !std::holds_alternative<ClearingPercent>(work.amount);
    if (!fits)
        throw Error(Fault::usage, place, called(work) + " in " + (bleach ? "stops" : "percent of clearing"),
                    bleach ? "seconds or percent of clearing" : "stops or seconds");
    const double amount = std::visit([](const auto& told) { return told.value; }, work.amount);
    const Limits limits = std::holds_alternative<Stops>(work.amount)      ? kLocalStops
                          : !std::holds_alternative<Seconds>(work.amount) ? kClearingLimits
                          : bleach                                        ? kBleachTimeLimits
                                                                          : kLocalTime;
    if (!within(amount, limits))
        throw Error(Fault::usage, place, called(work) + " = " + shortest(amount), limits_in_words(limits));
}

}  // namespace fogproof::print
