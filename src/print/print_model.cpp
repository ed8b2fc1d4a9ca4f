// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/print_model.hpp"

#include <memory>
#include <utility>

namespace fogproof {

PrintModel::PrintModel(const PaperModel& paper, const Enlarger& enlarger, PrintSteps steps,
                       double mean_transmitted, std::optional<BathLayer> bath)
    : paper_(paper),
      enlarger_(enlarger),
      steps_(std::move(steps)),
      mean_transmitted_(mean_transmitted),
      bath_(bath),
      developer_(paper_.emulsion, steps_.develop) {}

Patch PrintModel::patch(NegativeDensity density) const {
    return lit(light_at_easel(density, mean_transmitted_, enlarger_, steps_.exposures, steps_.flashes));
}

PrintModel PrintModel::for_many_patches() const {
    PrintModel quick = *this;
    const Grains& grains = paper_.emulsion.grains;
    quick.developer_ = Developer(paper_.emulsion, steps_.develop,
                                 GrainPopulation(grains, std::make_shared<const ShareTable>(grains)));
    return quick;
}

Patch PrintModel::border() const {
    return lit(EaselLight{});
}

Patch PrintModel::lit(EaselLight light) const {
    return seen(finished(paper_, developer_, light, steps_.finishing));
}

Patch PrintModel::fixed_only() const {
    return seen(FinishedSilver{});
}

Patch PrintModel::seen(const FinishedSilver& silver) const {
    const Spectrum dry = paper_.sheet.reflectance(silver);
    const PrintDensity density = visual_density(dry);
    if (!bath_) return {silver, density, lab(xyz_under_d50(dry))};
    return {silver, density, lab(xyz_under_d50(paper_.sheet.reflectance_under(silver, *bath_)))};
}

}  // namespace fogproof
