// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/numbers_text.hpp"

#include <filesystem>
#include <optional>
#include <string_view>

#include "base/words.hpp"
#include "pack/schema.hpp"
#include "pack/uncertainty.hpp"
#include "report/columns.hpp"
#include "report/departure_words.hpp"
#include "report/shown.hpp"

namespace fogproof::report {
namespace {

constexpr std::size_t kKeyWidth = 30;

std::string origin_of(const Knowledge& known) {
    return shown(known.origin);
}

}  // namespace

std::string numbers_text(const Pack& pack) {
    std::string text = left("Numbers", kKeyWidth + 18) + "95 %\n";
    const auto add = [&](const std::string& name, const std::string& value, const Knowledge& known,
                         const std::string& interval = {}) {
        text += left("  " + name, kKeyWidth) + left(right(value, 14), 18) + left(interval, 22) +
                origin_of(known) + "\n";
    };
    add("paper.contrast", contrast_words()[std::size_t(pack.contrast)], pack.known("paper.contrast"));
    add("paper.surface", surface_words()[std::size_t(pack.surface)], pack.known("paper.surface"));
    add("restrainer.agent", agent_words()[std::size_t(pack.darkroom.restrainer_agent)],
        pack.known("restrainer.agent"));
    if (const std::string& map = pack.edge_fog.map; !map.empty())
        add("edge_fog.map", std::filesystem::path(map).filename().string(), pack.known("edge_fog.density"));
    add("enlarger.head", head_words()[std::size_t(pack.darkroom.head)], pack.known("enlarger.head"));
    const auto with_unit = [](const std::string& value, std::string_view unit) {
        return unit.empty() ? value : value + " " + std::string(unit);
    };
    // No figure is finer than its doubt.
    const auto add_number = [&](const std::string& name, double value, const Knowledge& known,
                                std::string_view unit, const std::optional<Within>& within) {
        const auto told = [&](double figure) {
            return within ? shown_number(figure, {value, within->low, within->high}) : decimal(figure, 4);
        };
        add(name, with_unit(told(value), unit), known,
            within ? told(within->low) + " to " + told(within->high) : std::string());
    };
    // A patch that nobody measured has no colour to tell.
    const auto is_told = [&](const PackNumber& row) {
        return is_listed(pack, row) || (is_of_toner(row) && !row.key.starts_with("patch_"));
    };
    for (const auto& row : pack_numbers())
        if (!is_departure(row) && is_told(row))
            add_number(row.name(), row.of(pack), pack.known(row.name()), row.unit,
                       within_95_percent(pack, row));
    if (!pack.grains.departure.is_nil() || pack.bleach.pace != BleachRate{}.pace)
        text += "  " + departure_words(pack) + "\n";
    for (const auto& filter : pack.filters)
        for (const auto& row : filter_numbers()) {
            const std::string name = filter_number_name(filter, row.key);
            const double half = row.key == "grade" ? 0 : kWithin95Percent * filter_deviation_of(pack, name);
            const double value = row.of(filter);
            add_number(name, value, pack.known(name), row.unit,
                       half > 0 ? std::optional(Within{value - half, value + half}) : std::nullopt);
        }
    return text;
}

}  // namespace fogproof::report
