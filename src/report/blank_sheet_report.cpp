// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/blank_sheet_report.hpp"

#include <nlohmann/json.hpp>

#include "base/version.hpp"
#include "base/words.hpp"
#include "pixels/level_grid.hpp"
#include "report/json_text.hpp"

namespace fogproof::report {

std::string blank_sheet_text(const BlankSheet& sheet, const Pack& pack) {
    return "Blank sheet, piece " + std::to_string(sheet.piece) + " of the scan\n  middle       " +
           fixed(sheet.middle, 2) + " D\n  edges        up to " + fixed(pack.edge_fog.density, 2) +
           " D over the pack's blank of " + fixed(pack.blank_density, 2) + "\n  more fogged  " +
           fixed(100 * touched(sheet.map).some, 0) + " % of the sheet\n";
}

std::string blank_sheet_json(const BlankSheet& sheet, const Pack& pack) {
    return json_text({{"fogproof", version()},
                      {"piece", sheet.piece},
                      {"middle_density", kept(sheet.middle)},
                      {"edge_density", kept(pack.edge_fog.density)},
                      {"touches", kept(touched(sheet.map).some)},
                      {"map", pack.edge_fog.map}});
}

}  // namespace fogproof::report
