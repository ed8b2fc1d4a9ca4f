// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/panels.hpp"

#include <algorithm>

#include "choose/print_spread.hpp"
#include "fogproof/sheet/colour.hpp"

namespace fogproof::proof {
namespace {

Panel panel_of(const Printing& printing, const PrintSteps& steps, std::optional<BathLayer> bath) {
    Panel panel{printing.print(steps, bath)};
    if (!steps.local.empty() || printing.paper().emulsion.fog.edge > 0)
        panel.local = std::make_shared<const LocalTable>(printing.paper(), printing.pack().darkroom.enlarger,
                                                         steps, printing.light().mean_transmitted(), bath);
    return panel;
}

// Share of its dose by which bleach that is brushed or swabbed on may fall short or go beyond, from stroke to
// stroke. Judgement; common practice calls it uneven and tells no number.
constexpr double kUneven = 0.25;

Panel brushed(const Printing& printing, PrintSteps steps, double share, const Panel& likely,
              std::optional<BathLayer> bath) {
    if (std::ranges::none_of(steps.local, [](const LocalStep& step) { return step.dose > 0; })) return likely;
    for (LocalStep& step : steps.local) step.dose *= share;
    return panel_of(printing, steps, bath);
}

std::vector<Panel> spread_panels(const Printing& printing, const Proof& proof, const Panel& likely,
                                 std::optional<BathLayer> bath) {
    const PrintSpread spread = print_spread(printing, proof);
    LightnessShift shift{spread.lightness, spread.border};
    shift.darkest = lightness({printing.pack().black_density});
    shift.lightest = likely.print.fixed_only().lab;
    Panel dark = brushed(printing, proof.steps, 1 - kUneven, likely, bath),
          light = brushed(printing, proof.steps, 1 + kUneven, likely, bath);
    light.shift = shift;
    shift.factor = -1;
    dark.shift = shift;
    return {dark, likely, light};
}

}  // namespace

PrintSteps as_developed(PrintSteps steps) {
    steps.finishing = {};
    // What is brushed on is bleach too.
    for (LocalStep& step : steps.local) step.dose = 0;
    return steps;
}

std::vector<Panel> panels(const Printing& printing, const Proof& proof, const GridRequest& request) {
    const Panel likely = panel_of(printing, proof.steps, request.bath);
    switch (request.panels) {
        case GridRequest::Panels::likely:
            break;
        case GridRequest::Panels::halves:
            return {panel_of(printing, as_developed(proof.steps), request.bath), likely};
        case GridRequest::Panels::spread:
            return spread_panels(printing, proof, likely, request.bath);
    }
    return {likely};
}

std::vector<Panel> before_and_after(const Printing& printing, const PrintSteps& steps,
                                    std::optional<BathLayer> bath) {
    const Panel after = panel_of(printing, steps, bath);
    const bool is_brushed = std::ranges::any_of(
        steps.local, [](const LocalStep& step) { return step.kind == LocalWork::Kind::bleach; });
    if (steps.finishing.bleach_dose <= 0 && !is_brushed) return {after};
    return {panel_of(printing, as_developed(steps), bath), after};
}

}  // namespace fogproof::proof
