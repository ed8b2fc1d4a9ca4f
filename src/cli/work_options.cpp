// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/work_options.hpp"

#include "base/written_lengths.hpp"
#include "bleach/mixing.hpp"
#include "cli/choice.hpp"
#include "cli/typed_values.hpp"
#include "report/mistaken_unit.hpp"

namespace fogproof::cli {
namespace {

// "240x300" as so many lengths in millimetres.
std::vector<double> lengths_in(const std::string& text, std::size_t count, double most,
                               const std::string& place) {
    const auto sides = base::millimetres_in(text);
    if (!sides || sides->size() != count)
        throw Error(Fault::usage, place, "\"" + text + "\"",
                    count == 2 ? "WIDTHxLENGTH in mm, as 240x300, or with its unit, as 24x30cm"
                               : "WIDTHxLENGTHxDEPTH in mm, as 270x330x12, or with its unit, as 27x33x1.2cm");
    std::vector<double> lengths;
    for (const double side : *sides) lengths.push_back(within(side, 1, most, place));
    if (const auto likely = likely_millimetres(lengths))
        throw Error(Fault::usage, place, text + " mm is smaller than any print", "millimetres: " + *likely);
    return lengths;
}

}  // namespace

void WorkOptions::add_to(CLI::App& app) {
    const std::string group = "In the darkroom";
    app.add_option("--sheet", sheet,
                   "WIDTHxLENGTH of a sheet in mm, or with its unit (24x30cm, 8x10in) [240x300]")
        ->group(group);
    app.add_option("--margin", usual.sheet.margin, "white border in mm [10]")->group(group);
    litres_option = app.add_option("--litres", litres, "in each tray [1 L for 24 x 30 cm]")->group(group);
    tray_option =
        app.add_option("--tray", tray,
                       "WIDTHxLENGTHxDEPTH of the bath in mm, or with its unit, instead of --litres")
            ->group(group);
    app.add_option("--developer-parts", usual.developer_parts, "dilution of the developer [1+9]")
        ->type_name(kDilution)
        ->group(group);
    app.add_option("--dilution", dilution, "of the bleach bath [the pack's]")
        ->type_name(kDilution)
        ->group(group);
    app.add_option("--alike", usual.alike,
                   "L* that a print may lose by sharing its bleach time with others [1]")
        ->group(group);
    app.add_option("--together", usual.together, "sheets in the bleach at once [2]")->group(group);
    app.add_option("--sheets-left", sheets_left, "sheets left in the pack")->group(group);
}

WorkTerms WorkOptions::terms() const {
    WorkTerms terms = usual;
    constexpr double kLargest = 2000;
    const auto size = lengths_in(sheet, 2, kLargest, "--sheet");
    terms.sheet.width = size[0];
    terms.sheet.length = size[1];
    terms.sheet.margin = within(usual.sheet.margin, 0, 0.4 * std::min(size[0], size[1]), "--margin");
    const bool by_tray = !tray.empty() && !(litres_option->count() > 0 && tray_option->count() == 0);
    if (litres && by_tray && litres_option->count() == tray_option->count())
        throw Error(Fault::usage, "--tray", "together with --litres", "one of the two");
    if (by_tray) {
        const auto bath = lengths_in(tray, 3, kLargest, "--tray");
        terms.litres = tray_litres(bath[0], bath[1], bath[2]);
    } else {
        terms.litres = litres ? *litres : usual_litres(size[0], size[1]);
    }
    terms.litres = within(terms.litres, 0.05, 200, by_tray ? "--tray" : "--litres");
    terms.developer_parts = within(usual.developer_parts, 0.5, 200, "--developer-parts");
    terms.alike = within(usual.alike, 0.1, 10, "--alike");
    terms.together = int(within(usual.together, 1, 50, "--together"));
    if (sheets_left) terms.sheets_left = int(within(*sheets_left, 0, 100000, "--sheets-left"));
    return terms;
}

}  // namespace fogproof::cli
