// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/tray_ways.hpp"

#include <algorithm>
#include <cmath>

#include "base/stop.hpp"
#include "base/words.hpp"
#include "choose/print_spread.hpp"
#include "choose/starting_exposure.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/grade_words.hpp"
#include "print/clearing.hpp"
#include "print/response.hpp"
#include "print/toner_words.hpp"
#include "system/threads.hpp"

namespace fogproof::proof {
namespace {

constexpr double kBeyondClearing = 2;  // of the clearing dose, which the longest time comes to
constexpr double kShortest_s = 60;     // that the longest time is at least
constexpr std::size_t kTimes = 257, kFrameLights = 97;

TrayColour colour_of(const Patch& patch) {
    return {patch.lab, patch.density.value};
}

// Proofs that differ only by their bleach, as a printer would bleach one print further.
bool is_same_way(const Proof& a, const Proof& b) {
    const auto filters = [](const Proof& proof) {
        std::vector<double> told;
        for (const Exposure& each : proof.steps.exposures)
            told.insert(told.end(), {each.filter.blue, each.filter.green});
        return told;
    };
    const DevelopStep &one = a.steps.develop, &other = b.steps.develop;
    return filters(a) == filters(b) && one.restrainer_ml_l == other.restrainer_ml_l &&
           one.time_s == other.time_s &&
           a.steps.finishing.redevelop.value == b.steps.finishing.redevelop.value &&
           a.steps.finishing.toner == b.steps.finishing.toner;
}

std::string words_of(const Printing& printing, const Proof& proof) {
    std::string words;
    if (printing.pack().contrast == Contrast::graded) words = "graded paper";
    for (const PlannedExposure& each : proof.recipe.exposures)
        if (each.grade && printing.pack().contrast == Contrast::variable)
            words += (words.empty() ? "grade " : " + ") + grade_name(*each.grade);
    if (words.empty()) words = "no filter";
    const DevelopStep& step = proof.steps.develop;
    if (step.restrainer_ml_l > 0) words += ", restrainer " + decimal(step.restrainer_ml_l, 1) + " ml/L";
    words += ", developed " + decimal(step.time_s, 0) + " s";
    const Finishing& finishing = proof.steps.finishing;
    if (finishing.toner != Toner::none)
        return words + ", " + toner_name(finishing.toner) + " " + decimal(finishing.redevelop.value, 0) +
               " s";
    if (finishing.redevelop.value > 0)
        words += ", redeveloped " + decimal(finishing.redevelop.value, 0) + " s";
    return words;
}

class Bath {
  public:
    Bath(const Printing& printing, const WorkedGrid& grid) : printing_(printing) {
        const Pack& pack = printing.pack();
        bath_ = bleach_bath(pack, grid.proofs[grid.marked()].recipe);
        double longest = kShortest_s;
        for (const Proof& proof : grid.proofs) {
            longest = std::max(longest, proof.bleach.value);
            if (const auto clears = clearing_dose(printing.paper(), proof.steps.develop))
                longest = std::max(longest, time_of(kBeyondClearing * *clears));
        }
        longest_ = longest;
    }
    [[nodiscard]] double time_of(double dose) const {
        return bleach_time(printing_.paper().bleach, bath_, dose).value;
    }
    [[nodiscard]] double dose_of(double seconds) const {
        return bleach_dose(printing_.paper().bleach, bath_, Seconds{seconds});
    }
    [[nodiscard]] double longest() const { return longest_; }

  private:
    const Printing& printing_;
    BleachBath bath_;
    double longest_;
};

TrayWay way_of(const Printing& printing, const Tray& tray, const Bath& bath, const Proof& proof) {
    const Enlarger& enlarger = printing.pack().darkroom.enlarger;
    TrayWay way;
    way.words = words_of(printing, proof);
    way.told_s = proof.exposures.front().value;
    way.has_several_exposures = proof.exposures.size() > 1;
    way.told_log_h = exposure_of(std::log10(way.told_s), enlarger).value;
    PrintSteps steps = proof.steps;
    steps.local.clear();
    // Shares of the first, since that is what the scale of exposures moves.
    for (Exposure& each : steps.exposures) each.time.value /= way.told_s;
    const double most = bath.dose_of(bath.longest());
    for (std::size_t d = 0; d < Tray::kDoses; ++d) {
        const double u = double(d) / double(Tray::kDoses - 2);
        steps.finishing.bleach_dose = most * u * u;
        const Response response(printing.paper(), enlarger, steps);
        way.borders.push_back(colour_of(response.border()));
        for (std::size_t i = 0; i < tray.lights; ++i)
            way.colours.push_back(colour_of(
                response.patch({way.told_log_h + tray.first_light + double(i) * Tray::kLightStep})));
    }
    // What is given back to the silver, or a toner to what was bleached, clears no more at that time.
    const bool gives_back = steps.finishing.redevelop.value > 0 || tones_bleached(steps.finishing.toner);
    if (const auto clears = clearing_dose(printing.paper(), steps.develop); clears && !gives_back) {
        way.clears_s = bath.time_of(*clears);
        way.over_s = bath.time_of(kMostMadeUpFor / 100 * *clears);
    }
    return way;
}

// The density of the negative that lets so much light through; the light falls with it.
NegativeDensity density_at(const Printing& printing, double log_light) {
    double thin = -1, dense = 6;
    while (dense - thin > 1e-5) {
        const double middle = (thin + dense) / 2;
        (printing.light().log_light(NegativeDensity{middle}) > log_light ? thin : dense) = middle;
    }
    return {thin};
}

void add_frame(Tray& tray, const Printing& printing, const Proof& marked) {
    const PrintModel fresh = printing.fresh_print();
    const PrintSpread spread = print_spread(printing, marked);
    for (std::size_t i = 0; i < kFrameLights; ++i) {
        const NegativeDensity at = density_at(
            printing, tray.darkest + (tray.brightest - tray.darkest) * double(i) / double(kFrameLights - 1));
        tray.fresh.push_back(colour_of(fresh.patch(at)));
        tray.half_band.push_back(spread.lightness(at.value));
    }
    tray.fresh_border = fresh.border().lab;
}

}  // namespace

Tray tray(const Printing& printing, const WorkedGrid& grid) {
    const Enlarger& enlarger = printing.pack().darkroom.enlarger;
    const Bath bath(printing, grid);
    Tray tray;
    constexpr double kRoom = 0.002;  // log10; so that rounding leaves no light outside
    tray.darkest = printing.light().log_light(printing.frame().quantile(1)) - kRoom;
    tray.brightest = printing.light().log_light(printing.frame().quantile(0)) + kRoom;
    tray.reciprocity = enlarger.reciprocity;
    const double reach = Tray::kExposureReach * kLogPerStop * enlarger.reciprocity;
    tray.first_light = tray.darkest - reach - Tray::kLightStep;
    tray.lights = std::size_t((tray.brightest + reach - tray.first_light) / Tray::kLightStep) + 4;
    tray.longest_s = bath.longest();
    const double most = bath.dose_of(bath.longest());
    for (std::size_t i = 0; i < kTimes; ++i)
        tray.dose.push_back(most > 0 ? bath.dose_of(bath.longest() * double(i) / double(kTimes - 1)) / most
                                     : 0);

    const Proof& marked = grid.proofs[grid.marked()];
    std::vector<const Proof*> ways;
    // The print with the mark first, so that its own exposure is the one told of its way.
    const auto add = [&](const Proof& proof) {
        if (std::ranges::none_of(ways, [&](const Proof* other) { return is_same_way(*other, proof); }))
            ways.push_back(&proof);
    };
    add(marked);
    // Of the others that which is bleached most like it.
    std::vector<const Proof*> others;
    for (const Proof& proof : grid.proofs) others.push_back(&proof);
    std::ranges::stable_sort(
        others, {}, [&](const Proof* proof) { return std::abs(proof->bleach.value - marked.bleach.value); });
    for (const Proof* proof : others) add(*proof);
    tray.ways.resize(ways.size());
    in_parallel(ways.size(), [&](std::size_t i) { tray.ways[i] = way_of(printing, tray, bath, *ways[i]); });
    tray.ways.front().recommended_s = marked.bleach.value;
    std::ranges::stable_sort(tray.ways, {}, &TrayWay::words);
    const auto own =
        std::ranges::find_if(tray.ways, [](const TrayWay& way) { return bool(way.recommended_s); });
    tray.marked = std::size_t(own - tray.ways.begin());
    add_frame(tray, printing, marked);
    tray.fixed = printing.print(marked.steps).fixed_only().lab;
    return tray;
}

}  // namespace fogproof::proof
