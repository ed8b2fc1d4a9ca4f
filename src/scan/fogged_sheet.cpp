// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/fogged_sheet.hpp"

#include <utility>

#include "scan/local_masks.hpp"

namespace fogproof::scan {
namespace {

// Of one sheet, upright or on its side.
LevelGrid map_levels(const std::string& path, const SheetLayout& sheet) {
    constexpr double kPerMm = 100;  // so fine that proportions are those of the sheet
    return picture_levels(
        path, int(kPerMm * sheet.width), int(kPerMm * sheet.length), kUsualMaxPixels,
        {"map of a sheet's fog", "the sheet", "white where it is fogged as at its edge", true});
}

}  // namespace

std::shared_ptr<const SheetFog> fogged_sheet(const Pack& pack, SheetLayout sheet, const Laying& laying,
                                             const Scan& scan) {
    if (!pack.edge_fog.is_there()) return nullptr;
    std::optional<LevelGrid> map;
    if (!pack.edge_fog.map.empty()) {
        map = map_levels(pack.edge_fog.map, sheet);
        // Turns count from how the map shows the sheet.
        if ((map->width > map->height) != (sheet.width > sheet.length)) std::swap(sheet.width, sheet.length);
    }
    return std::make_shared<const SheetFog>(pack.edge_fog, std::move(map),
                                            laid_on_sheet(sheet, scan.width(), scan.height(), laying));
}

LevelGrid fog_levels(const SheetFog& fog, const Scan& scan) {
    const Region frame = scan.frame_in_print();
    const FrameOnSheet& picture = fog.frame();
    const double across = picture.width / scan.width(), down = picture.height / scan.height();
    return fog.over({picture.left + across * frame.left, picture.top + down * frame.top, across * frame.width,
                     down * frame.height},
                    grid_size(frame.width, frame.height));
}

}  // namespace fogproof::scan
