// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/fresh_target.hpp"

#include <algorithm>
#include <cmath>

#include "fogproof/pack/grades.hpp"
#include "print/response.hpp"

namespace fogproof::choose {
namespace {

// Log transmittance at the easel of a tone, flare included.
double log_transmitted(NegativeDensity density, double mean, const Enlarger& enlarger) {
    return std::log10(transmitted(density, mean, enlarger));
}

}  // namespace

FreshTarget fresh_target(const Tones& frame, std::span<const Tone> tones, const Pack& pack,
                         const PaperModel& paper) {
    const double mean = frame.mean_transmitted(pack.enlarger.callier);
    const double brightest = log_transmitted(frame.quantile(kThinEnd), mean, pack.enlarger);
    const double dimmest = log_transmitted(frame.quantile(kDenseEnd), mean, pack.enlarger);

    const auto grades = grades_of(pack, paper);
    const double wanted_grade = grade_of_iso_range(100 * (brightest - dimmest));
    const double grade = std::clamp(wanted_grade, grades.front(), grades.back());

    PrintSteps steps;
    steps.exposures = {{filter_for(pack, paper, grade), Seconds{1}}};
    steps.develop = nominal_step(pack.development);
    const Response fresh(before_fog(paper), pack.enlarger, steps);
    const auto numbers = fresh.numbers();

    FreshTarget target;
    target.grade = grade;
    target.iso_range = numbers->iso_range;
    target.exposure = {(numbers->shoulder.value - brightest + numbers->toe.value - dimmest) / 2};
    target.time = time_giving(target.exposure, pack.enlarger);
    target.white_lightness = fresh.border().lab.l;
    for (const Tone& tone : tones)
        target.lightness.push_back(
            fresh.patch({target.exposure.value + log_transmitted(tone.density, mean, pack.enlarger)}).lab.l);
    return target;
}

}  // namespace fogproof::choose
