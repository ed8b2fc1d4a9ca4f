// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/departure_text.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>
#include <vector>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/base/rising_map.hpp"
#include "pack/schema.hpp"

namespace fogproof::pack {
namespace {

constexpr std::string_view kDeviation = "_sd";

// "slope" of "slope_3".
std::string list_of(const PackNumber& row) {
    return std::string(row.key.substr(0, row.key.rfind('_')));
}

// Rows by list, each in its order.
std::map<std::string, std::vector<const PackNumber*>> lists() {
    std::map<std::string, std::vector<const PackNumber*>> all;
    for (const auto& row : pack_numbers())
        if (is_departure(row)) all[list_of(row)].push_back(&row);
    return all;
}

std::vector<double> numbers_in(const TomlValue& entry, std::size_t count) {
    std::istringstream words(text_of(entry));
    std::vector<double> values;
    for (std::string word; words >> word;) {
        const auto value = number_in(word);
        if (!value || !std::isfinite(*value)) refuse_value(entry, "numbers with spaces between them");
        values.push_back(*value);
    }
    if (values.size() != count) refuse_value(entry, std::to_string(count) + " numbers");
    return values;
}

}  // namespace

std::string departure_section(const Pack& pack) {
    bool is_nil = true;
    std::string text;
    for (const auto& [name, rows] : lists()) {
        std::string values, deviations;
        bool is_known = false;
        for (const auto* row : rows) {
            const double value = row->of(pack);
            const Knowledge known = pack.known(row->name());
            is_nil = is_nil && value == 0 && known == Knowledge{};
            is_known = is_known || known.deviation;
            values.append(values.empty() ? "" : " ").append(shortest(value));
            deviations.append(deviations.empty() ? "" : " ")
                .append(shortest(known.deviation.value_or(row->doubt)));
        }
        text.append(name).append(" = ").append(toml_text(values)).append("\n");
        if (is_known)
            text.append(name).append(kDeviation).append(" = ").append(toml_text(deviations)).append("\n");
    }
    if (is_nil) return {};
    const auto sections = pack_sections();
    const auto section = std::ranges::find(sections, kDepartureSection, &PackSection::name);
    return "\n# " + std::string(section->description) + "\n[" + std::string(kDepartureSection) + "]\n" + text;
}

void read_departure(Pack& pack, const TomlSection& section) {
    const auto all = lists();
    for (const auto& entry : section.values) {
        const bool is_deviation = entry.key.ends_with(kDeviation);
        const std::string name =
            entry.key.substr(0, entry.key.size() - (is_deviation ? kDeviation.size() : 0));
        const auto found = all.find(name);
        if (found == all.end()) {
            std::vector<std::string> keys;
            for (const auto& [key, rows] : all) keys.insert(keys.end(), {key, key + std::string(kDeviation)});
            refuse_unknown(entry.place, "key in [departure]:", entry.key, keys);
        }
        const std::vector<double> values = numbers_in(entry, found->second.size());
        for (std::size_t i = 0; i < values.size(); ++i) {
            const PackNumber& row = *found->second[i];
            if (is_deviation) {
                if (!(values[i] > 0)) refuse_value(entry, "deviations above 0");
                pack.knowledge[row.name()] = {Origin::partly_measured, values[i]};
            } else {
                if (!within(values[i], {row.minimum, row.maximum, row.unit}))
                    refuse_value(entry, limits_in_words({row.minimum, row.maximum, row.unit}));
                row.in(pack) = values[i];
            }
        }
    }
}

DepartureSize departure_size(const Pack& pack) {
    DepartureSize size{0, 0};
    const RisingMap<GrainDeparture::kSlopes> map = slope_map(pack.grains.departure);
    for (double z = -2; z <= 2; z += 0.25)
        size.log_exposure = std::max(size.log_exposure, std::abs(map(z) - z) * pack.grains.spread);
    for (const double by : pack.grains.departure.slower)
        size.log_exposure = std::max(size.log_exposure, std::abs(by));
    for (const double by : pack.bleach.pace)
        size.bleach_share = std::max(size.bleach_share, std::expm1(std::abs(by)));
    const RisingMap<kQuickerNodes.size()> time(kQuickerNodes, pack.bleach.quicker, 0);
    for (const double at : kQuickerNodes)
        size.bleach_share = std::max(size.bleach_share, std::expm1(std::abs(time(at) - at)));
    return size;
}

}  // namespace fogproof::pack
