// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which rows of the schema are of use to which pack.
#include "pack/schema.hpp"

#include <algorithm>

namespace fogproof::pack {

bool is_departure(const PackNumber& row) {
    return row.section == kDepartureSection;
}

bool is_of_toner(const PackNumber& row) {
    return std::ranges::find(kTonerSections, row.section) != kTonerSections.end();
}

bool is_listed(const Pack& pack, const PackNumber& row) {
    if (is_of_toner(row)) {
        static const Pack defaults;
        return std::ranges::any_of(pack_numbers(), [&](const PackNumber& number) {
            return number.section == row.section &&
                   (pack.known(number.name()) != Knowledge{} || number.of(pack) != number.of(defaults));
        });
    }
    return row.section != kEdgeFogSection || pack.edge_fog != EdgeFog{} ||
           pack.known("edge_fog.density") != Knowledge{} || pack.known("edge_fog.reach_mm") != Knowledge{};
}

bool applies(const Pack& pack, const PackNumber& row) {
    if (row.section == kEdgeFogSection)
        return pack.edge_fog.density > 0 && (row.key == "density" || pack.edge_fog.map.empty());
    const bool is_graded = pack.contrast == Contrast::graded;
    if (row.name() == "paper.iso_range") return is_graded;
    if (row.section == kFilterSetSection) return !is_graded && pack.filters.empty();
    // A graded paper has one sensitisation.
    const bool is_of_sensitisations = row.key.starts_with("more") || row.key.starts_with("slower");
    if (is_departure(row) && is_graded) return !is_of_sensitisations;
    return true;
}

bool goes_by_factor(const PackNumber& row) {
    // Densities are already logarithms; K and the speed loss may be nil but are doubted like the rates.
    return (row.minimum > 0 && row.unit != "D") || row.key == "starvation" || row.key == "speed_loss";
}

}  // namespace fogproof::pack
