// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/silver_path.hpp"

namespace fogproof::print {

FinishedSilver finished(const PaperModel& paper, DevelopedSilver silver, const Finishing& finishing) {
    const BleachedSilver thinned = bleached(silver, paper.bleach, finishing.bleach_dose);
    return redeveloped(thinned, paper.redevelop, finishing.redevelop, finishing.toner);
}

FinishedSilver finished(const PaperModel& paper, const Developer& developer, EaselLight light,
                        const Finishing& finishing) {
    return finished(paper, developer.developed(light), finishing);
}

double lightness_of(const Sheet& sheet, const FinishedSilver& silver) {
    return lab(xyz_under_d50(sheet.reflectance(silver))).l;
}

}  // namespace fogproof::print
