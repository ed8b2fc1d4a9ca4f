// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/prepared_negative.hpp"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <nlohmann/json.hpp>
#include <utility>

#include "base/markup.hpp"
#include "cli/console.hpp"
#include "report/edge_fog_words.hpp"
#include "report/zero_words.hpp"
#include "scan/fogged_sheet.hpp"
#include "scan/local_masks.hpp"

namespace fogproof::cli {

std::string negative_name(const std::string& file) {
    return plain_line(std::filesystem::path(file).stem().string());
}

void OpenedNegative::add(const std::vector<std::string>& warnings) {
    std::ranges::copy(warnings, std::back_inserter(remarks.warnings));
}

void OpenedNegative::warn(const std::vector<std::string>& warnings) {
    Console::warnings(warnings, file);
    add(warnings);
}

OpenedNegative opened_negative(const std::string& file, const ScanOptions& how) {
    Notes notes;
    const Scan scan = Scan::open(file, how, notes);
    return {file, scan, {std::move(notes), scan.warnings(), scan.degrees_turned()}};
}

PreparedNegative::PreparedNegative(const Scan& opened, const Pack& pack, std::optional<double> fresh_grade)
    : scan(opened),
      printing(with_negative(pack, opened.film_base()), Tones(opened.histogram(), opened.scale()),
               fresh_grade) {}

void PreparedNegative::lay_on(const SheetLayout& sheet, const Laying& laying) {
    fog = fogged_sheet(printing.pack(), sheet, laying, scan);
}

std::optional<double> PreparedNegative::drawn_mm() const {
    return fog ? std::optional(std::max(fog->frame().width, fog->frame().height)) : std::nullopt;
}

void PreparedNegative::mask(const Recipe& recipe) {
    masks = std::make_shared<const Masks>(local_masks(recipe, scan, fog.get()));
}

void PreparedNegative::count_places() {
    if (!masks->empty()) printing.count_places(placed_tones(scan, masks));
}

LocalMasks PreparedNegative::masks_to_draw() const {
    return local_masks_of(scan, masks, fog);
}

std::vector<Touched> PreparedNegative::touched_places() const {
    std::vector<Touched> places;
    for (const LevelGrid& mask : *masks) places.push_back(touched(mask));
    return places;
}

Description PreparedNegative::sheet_described() const {
    return fog ? sheet_description(*fog) : Description{};
}

nlohmann::ordered_json PreparedNegative::sheet_json() const {
    return fog ? edge_fog_json(*fog, masks->back()) : nullptr;
}

std::optional<std::string> PreparedNegative::sheet_sentence() const {
    return fog ? std::optional(edge_fog_sentence(*fog, masks->back())) : std::nullopt;
}

}  // namespace fogproof::cli
