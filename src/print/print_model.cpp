// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/print_model.hpp"

namespace fogproof::print {
namespace {

std::vector<Lighting> lightings(const PrintSteps& steps, std::span<const std::vector<double>> places) {
    std::vector<Lighting> lit;
    for (const auto& levels : places) lit.push_back({steps_at(steps, levels).exposures, steps.flashes});
    return lit;
}

}  // namespace

PrintModel::PrintModel(const PaperModel& paper, const Enlarger& enlarger, const PrintSteps& steps,
                       double mean_transmitted, std::span<const std::vector<double>> places,
                       std::optional<BathLayer> bath)
    : projection_(enlarger, mean_transmitted, lightings(steps, places)),
      sheet_(paper, steps.develop, steps.finishing, bath) {
    const bool has_edge = paper.emulsion.fog.edge > 0;
    for (const auto& levels : places)
        on_sheet_.push_back({steps_at(steps, levels).finishing.bleach_dose - steps.finishing.bleach_dose,
                             has_edge && !levels.empty() ? sheet_.more_fog(levels.back()) : 0});
}

}  // namespace fogproof::print
