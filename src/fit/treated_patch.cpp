// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/treated_patch.hpp"

#include "fogproof/pack/grades.hpp"

namespace fogproof::fit {
namespace {

// log10 exposure from the speed point to the shoulder of any paper. Judgement.
constexpr double kNominalAboveSpeed = 1.2;

}  // namespace

bool exposure_guessed(const Reading& reading) {
    return reading.wedge_density && !reading.exposure_s;
}

TreatedPatch treated(const Reading& reading, const Pack& nominal) {
    TreatedPatch patch;
    patch.wedge_density = reading.wedge_density.value_or(0);
    if (reading.callier) {
        patch.by_callier = patch.wedge_density / *reading.callier;
        patch.wedge_density = nominal.darkroom.enlarger.callier * patch.by_callier;
    }
    if (reading.carrier_density)
        patch.wedge_density -= log_gain_through(*reading.carrier_density, nominal.darkroom.enlarger);
    patch.exposure_s = reading.exposure_s.value_or(
        exposure_guessed(reading)
            ? time_at_anchor({nominal.speed_log_s + kNominalAboveSpeed}, nominal.darkroom.enlarger).value
            : 0);
    if (nominal.contrast == Contrast::variable) patch.filter = reading.filter.value_or(kUnfilteredGrade);
    patch.restrainer_ml_l = reading.restrainer_ml_l.value_or(0);
    patch.develop_s = reading.develop_s.value_or(nominal.development.nominal_s);
    patch.bleach_s = reading.bleach_s;
    patch.bleach_parts = reading.bleach_parts.value_or(nominal.darkroom.bath.parts);
    patch.redevelop_s = reading.redevelop_s;
    return patch;
}

}  // namespace fogproof::fit
