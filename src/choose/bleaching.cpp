// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/bleaching.hpp"

#include <algorithm>
#include <cmath>

#include "bleach/capacity.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"

namespace fogproof::choose {
namespace {

constexpr std::size_t kSilverBins =
    96;  // tones looked at; the mean silver moves by less than 0.1 % with more

// The print of a proof with another dose; nothing redeveloped, so that all that was bleached counts as gone.
PrintModel bleached_by(const Printing& printing, const Proof& proof, Seconds time) {
    PrintSteps steps = proof.steps;
    steps.finishing.bleach_dose =
        bleach_dose(printing.paper().bleach, bleach_bath(printing.pack(), proof.recipe), time);
    steps.finishing.redevelop = {0};
    return printing.print(steps);
}

// The time at which `moved` passes the tolerance, between one where it does not and one where it may.
Seconds where_it_passes(const Printing& printing, const Proof& proof, Seconds within, Seconds beyond,
                        double tolerance) {
    if (bleached_otherwise(printing, proof, beyond) <= tolerance) return beyond;
    constexpr double kExact = 0.05;  // seconds; nobody pulls a print that exactly
    while (std::abs(beyond.value - within.value) > kExact) {
        const Seconds middle{(within.value + beyond.value) / 2};
        (bleached_otherwise(printing, proof, middle) <= tolerance ? within : beyond) = middle;
    }
    return within;
}

}  // namespace

double SheetLayout::picture_m2(double aspect) const {
    const double across = std::max(0.0, std::min(width, length) - 2 * margin);
    const double along = std::max(0.0, std::max(width, length) - 2 * margin);
    const double ratio = std::max(aspect, 1 / aspect);
    const double long_side = std::min(along, across * ratio);
    return long_side * long_side / ratio / 1e6;
}

LostSilver lost_silver(const Printing& printing, const Proof& proof) {
    const PrintModel print = bleached_by(printing, proof, proof.bleach);
    LostSilver lost{{0}, print.border().silver.gone};
    for (const Tone& tone : printing.frame().gathered(kSilverBins))
        lost.picture = lost.picture + tone.share * print.patch_of(tone).silver.gone;
    return lost;
}

double lost_silver_g(const LostSilver& lost, const SheetLayout& sheet, double aspect) {
    const double picture = sheet.picture_m2(aspect);
    return silver_g(lost.picture, picture) + silver_g(lost.border, sheet.area_m2() - picture);
}

double bleached_otherwise(const Printing& printing, const Proof& proof, Seconds time) {
    const PrintModel own = bleached_by(printing, proof, proof.bleach),
                     other = bleached_by(printing, proof, time);
    double sum = 0;
    for (const Tone& tone : printing.frame().gathered(kSilverBins))
        sum += tone.share * std::pow(other.patch_of(tone).lab.l - own.patch_of(tone).lab.l, 2);
    return std::max(std::sqrt(sum), std::abs(other.border().lab.l - own.border().lab.l));
}

BleachLatitude bleach_latitude(const Printing& printing, const Proof& proof, double tolerance) {
    const Seconds own = proof.bleach, most{4 * own.value + 60};
    return {where_it_passes(printing, proof, own, {0}, tolerance),
            where_it_passes(printing, proof, own, most, tolerance)};
}

}  // namespace fogproof::choose
