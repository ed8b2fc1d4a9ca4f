// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/fresh_target.hpp"

#include <algorithm>
#include <cmath>

#include "fogproof/pack/grades.hpp"
#include "pack/fresh_paper.hpp"
#include "print/response.hpp"

namespace fogproof::choose {
namespace {

// Log transmittance at the easel of a tone, flare included.
double log_transmitted(NegativeDensity density, double mean, const Enlarger& enlarger) {
    return std::log10(transmitted(density, mean, enlarger));
}

// Whether a filter of the pack gives this grade; a graded paper has its own alone.
bool has_filter(const Pack& pack, const PaperModel& paper, double grade) {
    constexpr double kSame = 1e-9;
    const auto grades = grades_of(pack, paper);
    if (pack.contrast == Contrast::graded || !pack.filters.empty())
        return grade >= grades.front() - kSame && grade <= grades.back() + kSame;
    const FreshPaper fresh(paper);
    const double range = iso_range_of_grade(grade);
    return range >= fresh.hardest_range() && range <= fresh.softest_range();
}

}  // namespace

FreshSheet fresh_graded(Pack pack, double grade) {
    pack.contrast = Contrast::graded;
    pack.iso_range = iso_range_of_grade(grade);
    return {before_fog(paper_model(pack)), {1, 0}};
}

FreshTarget fresh_target(const Tones& frame, std::span<const Tone> tones, const Pack& pack,
                         const PaperModel& paper, std::optional<double> asked) {
    const double mean = frame.mean_transmitted(pack.darkroom.enlarger.callier);
    const double brightest = log_transmitted(frame.quantile(kThinEnd), mean, pack.darkroom.enlarger);
    const double dimmest = log_transmitted(frame.quantile(kDenseEnd), mean, pack.darkroom.enlarger);

    const auto grades = grades_of(pack, paper);
    const double wanted_grade = grade_of_iso_range(100 * (brightest - dimmest));
    const double grade = asked.value_or(std::clamp(wanted_grade, grades.front(), grades.back()));
    const bool own_filter = !asked || has_filter(pack, paper, grade);
    const FreshSheet sheet = own_filter ? FreshSheet{before_fog(paper), filter_for(pack, paper, grade)}
                                        : fresh_graded(pack, grade);

    PrintSteps steps;
    steps.exposures = {{sheet.filter, Seconds{1}}};
    steps.develop = nominal_step(pack.development);
    const Response fresh(sheet.paper, pack.darkroom.enlarger, steps);
    const auto numbers = fresh.numbers();

    FreshTarget target;
    target.grade = grade;
    target.own_filter = own_filter;
    target.iso_range = numbers->iso_range;
    target.exposure = {(numbers->shoulder.value - brightest + numbers->toe.value - dimmest) / 2};
    target.time = time_giving(target.exposure, pack.darkroom.enlarger);
    target.white_lightness = fresh.border().lab.l;
    for (const Tone& tone : tones)
        target.lightness.push_back(
            fresh.patch({target.exposure.value + log_transmitted(tone.density, mean, pack.darkroom.enlarger)})
                .lab.l);
    return target;
}

}  // namespace fogproof::choose
