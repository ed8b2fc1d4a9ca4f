// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/proposed_files.hpp"

#include <filesystem>

#include "scan/fogged_sheet.hpp"
#include "scan/local_masks.hpp"

namespace fogproof::cli {

std::string proposed_mask_file(const std::string& recipe, LocalWork::Kind kind) {
    if (recipe.empty()) return {};
    std::filesystem::path path = recipe;
    path.replace_filename(path.stem().string() + "-" + name_of(kind) + ".png");
    return path.string();
}

void declare_proposed_masks(RunFiles& files, const std::string& recipe, WholeFile::Replace replace) {
    if (recipe.empty()) return;
    for (const auto kind : {LocalWork::Kind::burn, LocalWork::Kind::dodge}) {
        const std::string mask = proposed_mask_file(recipe, kind);
        files.writes(mask, "the mask of --local");
        WholeFile::refuse_unwritable(mask, replace);
    }
}

std::optional<Proposed> proposed(Printing& printing, const Wanted& wanted, const SearchBounds& bounds,
                                 const StartingPoints& without, const Scan& scan,
                                 const SmallNegative& overview, const SheetFog* fog,
                                 const std::string& recipe) {
    const SmallNegative frame = frame_of(overview, scan);
    auto place = proposed_place(printing, wanted, without.best, {frame.width, frame.height, frame.density});
    if (!place) return std::nullopt;
    LocalWork work;
    work.kind = place->kind;
    work.amount = Stops{place->stops};
    work.where = MaskPicture{proposed_mask_file(recipe, place->kind)};
    Masks levels{{place->width, place->height, place->level}};
    if (fog != nullptr) levels.push_back(fog_levels(*fog, scan));
    auto masks = std::make_shared<const Masks>(std::move(levels));
    printing.count_places(placed_tones(scan, masks));
    StartingPoints points = starting_points(printing, wanted, bounds, {work});
    ProposedWork told = weighed(printing, wanted, without.best, points.best, std::move(*place));
    if (!is_worth_it(told)) return std::nullopt;
    return Proposed{std::move(told), std::move(points), std::move(masks)};
}

}  // namespace fogproof::cli
