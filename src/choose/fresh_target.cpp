// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/fresh_target.hpp"

#include <algorithm>
#include <cmath>

#include "enlarger/frame_light.hpp"
#include "fogproof/pack/grades.hpp"
#include "pack/fresh_paper.hpp"
#include "pack/grade_words.hpp"
#include "print/response.hpp"

namespace fogproof::choose {
namespace {

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

std::string FreshTarget::named_grade() const {
    return grade_name(grade, is_asked ? 2 : 1);
}

FreshTarget fresh_target(const Tones& frame, std::span<const Tone> tones, const Pack& pack,
                         const PaperModel& paper, std::optional<double> asked) {
    const FrameLight light(frame, pack.darkroom.enlarger);
    const double brightest = light.log_light(frame.quantile(kThinEnd));
    const double dimmest = light.log_light(frame.quantile(kDenseEnd));

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
    target.is_asked = asked.has_value();
    target.own_filter = own_filter;
    target.iso_range = numbers->iso_range;
    target.exposure = {(numbers->shoulder.value - brightest + numbers->toe.value - dimmest) / 2};
    target.time = time_giving(target.exposure, pack.darkroom.enlarger);
    target.white_lightness = fresh.border().lab.l;
    for (const Tone& tone : tones)
        target.lightness.push_back(fresh.patch({target.exposure.value + light.log_light(tone)}).lab.l);
    return target;
}

}  // namespace fogproof::choose
