// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "print/clearing.hpp"

namespace fogproof::print {

std::optional<double> clearing_dose(const PaperModel& paper, const DevelopStep& step, PrintDensity darker) {
    return clearing_dose(paper, Developer(paper.emulsion, step), darker);
}

std::optional<double> clearing_dose(const PaperModel& paper, const Developer& developer,
                                    PrintDensity darker) {
    const DevelopedSilver fogged = developer.developed(EaselLight{});
    const LayerDensity blank = darker == PrintDensity{}
                                   ? fogged.density
                                   : paper.sheet.layer_showing(paper.sheet.density(fogged) + darker);
    const LayerDensity clear = paper.sheet.layer_showing(paper.sheet.white() + PrintDensity{kClearWithin});
    if (blank <= clear) return std::nullopt;
    return dose_between(blank, clear, paper.bleach);
}

}  // namespace fogproof::print
