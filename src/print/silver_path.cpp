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

}  // namespace fogproof::print
