// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/work_options.hpp"

#include <algorithm>

#include "bleach/mixing.hpp"
#include "cli/choice.hpp"
#include "cli/typed_values.hpp"

namespace fogproof::cli {
void WorkOptions::add_to(CLI::App& app) {
    const std::string group = "In the darkroom";
    sheet.add_to(app, group);
    litres_option =
        app.add_option("--litres", litres, "litres of bath in each tray [1 for sheets of 24 x 30 cm]")
            ->group(group);
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
                   "how many L* worse a print may become by sharing its bleach time with others [1]")
        ->group(group);
    app.add_option("--together", usual.together, "sheets in the bleach at once [2]")->group(group);
    app.add_option("--sheets-left", sheets_left, "sheets left in the pack")->group(group);
}

WorkTerms WorkOptions::terms() const {
    WorkTerms terms = usual;
    terms.sheet = sheet.layout();
    const bool by_tray = !tray.empty() && !(litres_option->count() > 0 && tray_option->count() == 0);
    if (litres && by_tray && litres_option->count() == tray_option->count())
        throw Error(Fault::usage, "--tray", "cannot go together with --litres",
                    Advice{"give one of the two"});
    if (by_tray) {
        const auto bath = lengths_in(tray, 3, "--tray");
        const auto [shorter, longer] = std::minmax(bath[0], bath[1]);
        if (sheet.is_told() && (shorter < std::min(terms.sheet.width, terms.sheet.length) ||
                                longer < std::max(terms.sheet.width, terms.sheet.length)))
            throw Error(Fault::usage, "--tray", tray + " is smaller than the sheet",
                        "WIDTHxLENGTHxDEPTH that holds " + decimal(terms.sheet.width, 0) + " x " +
                            decimal(terms.sheet.length, 0) + " mm, or another --sheet");
        terms.litres = tray_litres(bath[0], bath[1], bath[2]);
    } else {
        terms.litres = litres ? *litres : usual_litres(terms.sheet.width, terms.sheet.length);
    }
    terms.litres = within(terms.litres, 0.05, 200, by_tray ? "--tray" : "--litres");
    terms.developer_parts = within(usual.developer_parts, 0.5, 200, "--developer-parts");
    terms.alike = within(usual.alike, 0.1, 10, "--alike");
    terms.together = int(within(usual.together, 1, 50, "--together"));
    if (sheets_left) terms.sheets_left = int(within(*sheets_left, 0, 100000, "--sheets-left"));
    return terms;
}

}  // namespace fogproof::cli
