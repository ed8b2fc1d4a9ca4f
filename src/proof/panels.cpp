// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/panels.hpp"

#include "choose/print_spread.hpp"
#include "fogproof/sheet/colour.hpp"

namespace fogproof::proof {
namespace {

std::vector<Panel> spread_panels(const Easel& easel, const Proof& proof, const Panel& likely) {
    const PrintSpread spread = print_spread(easel, proof);
    LightnessShift shift{spread.lightness, spread.border};
    shift.darkest = lightness({easel.pack().black_density});
    shift.lightest = likely.print.fixed_only().lab.l;
    Panel dark = likely, light = likely;
    light.shift = shift;
    shift.factor = -1;
    dark.shift = shift;
    return {dark, likely, light};
}

Panel before_the_bleach(const Easel& easel, PrintSteps steps, std::optional<BathLayer> bath) {
    steps.finishing = {};
    return {easel.print(steps, bath)};
}

}  // namespace

std::vector<Panel> panels(const Easel& easel, const Proof& proof, const GridRequest& request) {
    const Panel likely{easel.print(proof.steps, request.bath)};
    switch (request.panels) {
        case GridRequest::Panels::likely:
            break;
        case GridRequest::Panels::halves:
            return {before_the_bleach(easel, proof.steps, request.bath), likely};
        case GridRequest::Panels::spread:
            return spread_panels(easel, proof, likely);
    }
    return {likely};
}

std::vector<Panel> before_and_after(const Easel& easel, const PrintSteps& steps,
                                    std::optional<BathLayer> bath) {
    const Panel after{easel.print(steps, bath)};
    if (steps.finishing.bleach_dose <= 0) return {after};
    return {before_the_bleach(easel, steps, bath), after};
}

}  // namespace fogproof::proof
