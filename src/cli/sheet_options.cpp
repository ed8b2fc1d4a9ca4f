// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/sheet_options.hpp"

#include <algorithm>

#include "base/written_lengths.hpp"
#include "cli/choice.hpp"
#include "cli/typed_values.hpp"
#include "report/mistaken_unit.hpp"

namespace fogproof::cli {

std::vector<double> lengths_in(const std::string& text, std::size_t count, const std::string& place) {
    constexpr double kLargest = 2000;
    const auto sides = base::millimetres_in(text);
    if (!sides || sides->size() != count)
        throw Error(Fault::usage, place, "\"" + text + "\"",
                    count == 2 ? "WIDTHxLENGTH in mm, as 240x300, or with its unit, as 24x30cm"
                               : "WIDTHxLENGTHxDEPTH in mm, as 270x330x12, or with its unit, as 27x33x1.2cm");
    std::vector<double> lengths;
    for (const double side : *sides) lengths.push_back(within(side, 1, kLargest, place));
    if (const auto likely = likely_millimetres(lengths))
        throw Error(Fault::usage, place, text + " mm is smaller than any print", "millimetres: " + *likely);
    return lengths;
}

void SheetOptions::add_to(CLI::App& app, const std::string& group) {
    line = CommandLine(app);
    app.add_option("--sheet", sheet,
                   "WIDTHxLENGTH of a sheet in mm, or with its unit (24x30cm, 8x10in) [240x300]")
        ->group(group);
    app.add_option("--margin", margin, "white border in mm, or with its unit [10]")
        ->type_name(kMillimetres)
        ->group(group);
    app.add_option(
           "--turn-sheet", turn,
           "turn the sheet clockwise by 0, 90, 180 or 270 degrees; 0 is as its map shows it, or WIDTH "
           "across and LENGTH down [as the picture fits]")
        ->group(group);
}

std::vector<std::string> SheetOptions::idle_notes(SheetUse use) const {
    if (use == SheetUse::all) return {};
    const auto idle = use == SheetUse::size ? line.all_of({"--margin", "--turn-sheet"})
                                            : line.all_of({"--sheet", "--margin", "--turn-sheet"});
    if (idle.empty()) return {};
    return {"the pack tells no fog of its edges, so " + change_nothing(idle)};
}

SheetLayout SheetOptions::layout() const {
    SheetLayout layout;
    const auto size = lengths_in(sheet, 2, "--sheet");
    layout.width = size[0];
    layout.length = size[1];
    layout.margin = within(margin, 0, 0.4 * std::min(size[0], size[1]), "--margin");
    return layout;
}

Laying SheetOptions::laying() const {
    constexpr int kQuarter = 90;
    if (!turn) return {};
    if (*turn < 0 || *turn > 270 || *turn % kQuarter != 0)
        throw Error(Fault::usage, "--turn-sheet", std::to_string(*turn), "0, 90, 180 or 270");
    return {*turn / kQuarter, std::nullopt};
}

}  // namespace fogproof::cli
