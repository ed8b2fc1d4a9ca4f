// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/session_baths.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/words.hpp"
#include "bleach/bath_use.hpp"
#include "bleach/mixing.hpp"
#include "report/sheet_words.hpp"
#include "report/shown.hpp"

namespace fogproof::report {
namespace {

using Prints = std::vector<SessionPrint>;

std::vector<BleachBath> baths_of(const Prints& prints, const Session& session) {
    std::vector<BleachBath> baths;
    for (const SessionBatch& batch : session.batches) {
        const BleachBath& bath = prints[batch.prints.front()].numbers.bath;
        if (std::ranges::find(baths, bath) == baths.end()) baths.push_back(bath);
    }
    for (const auto& [name, wanted, numbers, warnings, small] : prints)
        if (numbers.brushes_bleach && std::ranges::find(baths, numbers.bath) == baths.end())
            baths.push_back(numbers.bath);
    return baths;
}

// Grams of silver of the tray load that gives a bath the most.
double heaviest_load_g(const Prints& prints, const Session& session, const BleachBath& bath) {
    double most = 0;
    for (const SessionBatch& batch : session.batches) {
        double load = 0;
        for (const std::size_t i : batch.prints)
            if (prints[i].numbers.bath == bath) load += prints[i].numbers.silver_g;
        most = std::max(most, load);
    }
    return most;
}

// A bath that one load uses up slows down while the prints lie in it, which no told time counts.
std::string too_weak_words(const BathUse& use, double load_g, double litres) {
    if (load_g <= use.usable_silver_g()) return {};
    if (use.usable_silver_g() <= 0)
        return " Without bromide it makes no silver bromide: how much silver it takes is not known. Add "
               "bromide.";
    return " One tray load gives it " + milligrams(load_g) + ", " +
           fixed(100 * kUsableShare * load_g / use.usable_silver_g(), 0) +
           " % of what it could take: it would weaken while the prints lie in it, and the times told here "
           "would be too short. Take at least " +
           decimal(std::ceil(100 * litres * load_g / use.usable_silver_g()) / 100, 2) +
           " L, or a stronger bath.";
}

}  // namespace

std::string one_plus(double parts) {
    return "1+" + decimal(parts, 1);
}

bool brush_bleach(const Prints& prints) {
    return std::ranges::any_of(prints, [](const auto& print) { return print.numbers.brushes_bleach; });
}

Listing mixtures(const Prints& prints, const Session& session, const WorkTerms& terms) {
    Listing table{"For " + decimal(terms.litres, 2) + " L in the tray",
                  {"Bath", "Concentrate", "Restrainer stock", "Water"},
                  {}};
    std::set<double> restrainers;
    for (const auto& print : prints) restrainers.insert(print.numbers.restrainer_ml_l);
    for (const double restrainer : restrainers) {
        const DilutedBath bath = diluted(terms.litres, terms.developer_parts, restrainer);
        table.rows.push_back({"Developer " + one_plus(terms.developer_parts) + ", restrainer " +
                                  decimal(restrainer, 1) + " ml/L",
                              millilitres(bath.concentrate_ml), millilitres(bath.additive_ml),
                              millilitres(bath.water_ml)});
    }
    for (const BleachBath& working : baths_of(prints, session)) {
        const DilutedBath bath = diluted(terms.litres, working.parts);
        table.rows.push_back({"Bleach " + one_plus(working.parts), millilitres(bath.concentrate_ml), "none",
                              millilitres(bath.water_ml)});
    }
    return table;
}

std::vector<Block> bath_words(const Prints& prints, const Session& session, const Pack& pack,
                              const WorkTerms& terms) {
    const auto origin = [&](const char* key) {
        return pack.known(key).origin == Origin::assumed ? " (assumed)" : "";
    };
    std::vector<Block> blocks;
    blocks.push_back(Paragraph{
        "Developer dilution as its label says; " + one_plus(terms.developer_parts) +
        " is assumed here. Restrainer stock: " + decimal(pack.darkroom.restrainer_stock_percent, 1) +
        (pack.darkroom.restrainer_agent == RestrainerAgent::unknown ? " %, " : " % ") +
        restrainer_words(pack.darkroom.restrainer_agent) + origin("restrainer.stock_percent") + "."});
    for (const BleachBath& bath : baths_of(prints, session)) {
        const BleachPowders powders = bleach_powders(bath, 1);
        const BathUse use(bath, terms.litres);
        double lost = 0;
        int count = 0;
        for (const auto& each : prints)
            if (const auto& print = each.numbers; print.silver_g > 0 && print.bath == bath) {
                lost += print.silver_g;
                ++count;
            }
        blocks.push_back(Paragraph{
            "Bleach " + one_plus(bath.parts) + " from powders instead: " + fixed(powders.ferricyanide_g, 2) +
            " g potassium ferricyanide and " + fixed(powders.bromide_g, 2) +
            " g potassium bromide in a litre. Concentrate: " + decimal(bath.ferricyanide_g_l, 0) +
            " g/L and " + decimal(bath.bromide_g_l, 0) + " g/L" + origin("bath.ferricyanide_g_l") + "."});
        if (count == 0) continue;  // it is brushed on
        const double sheets = std::floor(use.usable_silver_g() / (lost / count));
        blocks.push_back(Paragraph{
            (count == 1 ? "This print gives it " : "These " + std::to_string(count) + " prints give it ") +
            milligrams(lost) + " of silver; " + decimal(terms.litres, 2) + " L could take " +
            milligrams(use.usable_silver_g() / kUsableShare) + " by stoichiometry. Renew it after " +
            fixed(100 * kUsableShare, 0) + " % of that (judgement), " +
            (sheets < 1 ? "after each sheet"
                        : "about " + fixed(sheets, 0) + (sheets < 2 ? " such sheet" : " such sheets")) +
            ", after " + decimal(kBathHours, 0) + " hours (judgement), or when it turns green or cloudy." +
            too_weak_words(use, heaviest_load_g(prints, session, bath), terms.litres)});
    }
    return blocks;
}

}  // namespace fogproof::report
