// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/treated_sheet.hpp"

#include <memory>

namespace fogproof::print {

TreatedSheet::TreatedSheet(const PaperModel& paper, const DevelopStep& develop, const Finishing& finishing,
                           std::optional<BathLayer> bath)
    : paper_(paper),
      develop_(develop),
      finishing_(finishing),
      bath_(bath),
      developer_(paper_.emulsion, develop_) {}

TreatedSheet TreatedSheet::for_many_patches() const {
    TreatedSheet quick = *this;
    const Grains& grains = paper_.emulsion.grains;
    quick.developer_ = Developer(paper_.emulsion, develop_,
                                 GrainPopulation(grains, std::make_shared<const ShareTable>(grains)));
    return quick;
}

double TreatedSheet::exposed_share(EaselLight light) const {
    return developer_.population().developable(light, developer_.log_threshold());
}

FinishedSilver TreatedSheet::silver(double share, double more_dose) const {
    Finishing here = finishing_;
    here.bleach_dose += more_dose;
    return finished(paper_, developer_.with_share(share), here);
}

Patch TreatedSheet::with_share(double share, double more_dose) const {
    return seen(silver(share, more_dose));
}

PrintDensity TreatedSheet::quick_density(EaselLight light, const PlaceOnSheet& place) const {
    return paper_.sheet.quick_density(silver(with_more_fog(exposed_share(light), place.fog), place.dose));
}

Patch TreatedSheet::seen(const FinishedSilver& silver) const {
    const Spectrum dry = paper_.sheet.reflectance(silver);
    const PrintDensity density = visual_density(dry);
    if (!bath_) return {silver, density, lab(xyz_under_d50(dry))};
    return {silver, density, lab(xyz_under_d50(paper_.sheet.reflectance_under(silver, *bath_)))};
}

}  // namespace fogproof::print
