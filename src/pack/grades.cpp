// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/pack/grades.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/fresh_paper.hpp"
#include "pack/grade_words.hpp"
#include "pack/schema.hpp"
#include "pack/without_fit.hpp"

namespace fogproof::pack {
namespace {

// Limits of grades 0 to 5 as the header has them, times 100.
constexpr std::array kLimits{170.0, 140.0, 115.0, 95.0, 80.0, 65.0, 50.0};
constexpr std::size_t kGrades = kLimits.size() - 1;
constexpr double kLastGrade = double(kGrades - 1);
// ISO range of filter 00 (data sheets of variable-contrast papers give 160 to 200; from memory). A paper that
// reaches grade 0 but not this range takes its softest for 00, as such a filter leaves green light alone.
constexpr double kRange00 = 180;
constexpr double kTellsApart = 5;  // ISO R; less is one filter under two names. Judgement.
// A grade typed as a decimal fraction is the pack's grade if it is this close.
constexpr double kSameGrade = 1e-9;

using GradeSpan = std::pair<double, double>;  // softest, hardest

GradeSpan own_span(const Pack& pack, const FreshPaper& paper) {
    if (!pack.filters.empty()) return {pack.filters.front().grade, pack.filters.back().grade};
    return {grade_of_iso_range(paper.softest_range()), grade_of_iso_range(paper.hardest_range())};
}

// Of an emulsion that reaches no whole grade: its middle, to a hundredth.
double middle_of(const GradeSpan& span) {
    return std::clamp(std::round(50 * (span.first + span.second)) / 100, span.first, span.second);
}

// The number on the box of a graded paper: that whose limits hold its range, as it was told before any fit.
double graded_number(const Pack& pack) {
    if (pack.box_grade) return *pack.box_grade;
    const auto told = std::ranges::find(pack.fit.numbers, "paper.iso_range", &FitRecord::Number::name);
    const double range = told == pack.fit.numbers.end() ? pack.iso_range : told->prior;
    double grade = 0;
    while (grade < kLastGrade && range < kLimits[std::size_t(grade) + 1]) ++grade;
    return grade;
}

double middle(std::size_t grade) {
    return (kLimits[grade] + kLimits[grade + 1]) / 2;
}

// Balance and speed between two calibrated filters go in proportion.
PackFilter between(const std::vector<PackFilter>& filters, double grade) {
    const auto above = std::find_if(filters.begin(), filters.end(),
                                    [&](const PackFilter& f) { return f.grade >= grade - kSameGrade; });
    if (above == filters.begin() || std::abs(above->grade - grade) <= kSameGrade) return *above;
    const PackFilter& soft = *(above - 1);
    const double share = (grade - soft.grade) / (above->grade - soft.grade);
    return {grade, std::lerp(soft.balance, above->balance, share),
            std::lerp(soft.speed, above->speed, share)};
}

}  // namespace

bool has_standard_filters(const Pack& pack) {
    if (pack.filters.empty() || pack.has_moved_standard_filters) return true;
    const auto told = std::ranges::find(pack.fit.numbers, filter_number_name(pack.filters.front(), "balance"),
                                        &FitRecord::Number::name);
    return told != pack.fit.numbers.end() && told->prior_knowledge.origin == Origin::assumed;
}

Pack without_fit(Pack pack) {
    pack.has_moved_standard_filters = !pack.filters.empty() && has_standard_filters(pack);
    if (pack.contrast == Contrast::graded) pack.box_grade = graded_number(pack);
    pack.readings = {};
    pack.fit = {};
    return pack;
}

double iso_range_of_grade(double grade) {
    if (grade < 0) return std::lerp(middle(0), kRange00, std::min(-grade, 1.0));
    const double inside = std::clamp(grade, 0.0, kLastGrade);
    const auto low = std::min(std::size_t(inside), kGrades - 2);
    return std::lerp(middle(low), middle(low + 1), inside - double(low));
}

double grade_of_iso_range(double iso_range) {
    if (iso_range >= middle(0)) return 0;
    for (std::size_t i = 1; i < kGrades; ++i)
        if (iso_range >= middle(i)) return double(i) - (iso_range - middle(i)) / (middle(i - 1) - middle(i));
    return kLastGrade;
}

std::vector<double> grades_of(const Pack& pack, const PaperModel& model) {
    std::vector<double> grades;
    if (pack.contrast == Contrast::graded) {
        grades.push_back(graded_number(pack));
    } else if (!pack.filters.empty()) {
        for (const auto& filter : pack.filters) grades.push_back(filter.grade);
    } else {
        const GradeSpan span = own_span(pack, FreshPaper(model));
        for (double grade = 0; grade <= kLastGrade; ++grade)
            if (grade >= span.first - kSameGrade && grade <= span.second + kSameGrade)
                grades.push_back(grade);
        if (grades.empty()) grades.push_back(middle_of(span));
    }
    return grades;
}

struct FilterSet::Shared {
    Contrast contrast;
    double graded;
    std::vector<PackFilter> filters;
    FilterSetHabits habits;
    FreshPaper paper;
    GradeSpan span;
    double hardest, softest;  // ISO ranges
    double threshold;
    bool takes_00;  // though it is none of the filters

    // Filter 00 of a set that begins with 0: as much softer than that as the standard's is.
    [[nodiscard]] PackFilter softer(const PackFilter& nought) const {
        const auto balance = [&](double grade) {
            return paper.balance_for(std::clamp(iso_range_of_grade(grade), hardest, softest));
        };
        return {kGrade00, nought.balance + balance(kGrade00) - balance(0), nought.speed};
    }
};

FilterSet::FilterSet(const Pack& pack, const PaperModel& model, std::shared_ptr<const ShareTable> table) {
    const FreshPaper paper(model, GrainPopulation(model.emulsion.grains, std::move(table)));
    const GradeSpan span = own_span(pack, paper);
    // Where the emulsion can be softer than grade 0.
    const bool takes_00 = has_standard_filters(pack) && std::abs(span.first) <= kSameGrade &&
                          paper.softest_range() > middle(0) + kTellsApart;
    shared_ = std::make_unique<const Shared>(
        Shared{pack.contrast, graded_number(pack), pack.filters, pack.filter_set, paper, span,
               paper.hardest_range(), paper.softest_range(), model.emulsion.grains.log_threshold, takes_00});
}

FilterSet::~FilterSet() = default;

bool FilterSet::has(double grade) const {
    if (shared_->contrast == Contrast::graded) return std::abs(grade - shared_->graded) <= kSameGrade;
    const auto& [softest, hardest] = shared_->span;
    return (grade >= softest - kSameGrade && grade <= hardest + kSameGrade) ||
           (shared_->takes_00 && grade == kGrade00);
}

Filter FilterSet::at(double grade, std::optional<Filter> about) const {
    if (has(grade)) return nearest(grade, about);
    const auto& [softest, hardest] = shared_->span;
    const std::string spans = (shared_->takes_00 ? grade_name(kGrade00) + ", " : "") +
                              grade_name(std::ceil(100 * softest) / 100) + " to " +
                              grade_name(std::floor(100 * hardest) / 100);
    throw Error(
        Fault::usage, "grade", "there is no grade " + grade_name(grade),
        Advice{"this pack has " + (shared_->contrast == Contrast::graded
                                       ? "grade " + decimal(shared_->graded, 0) + " only, it is graded"
                                       : spans)});
}

Filter FilterSet::nearest(double grade, std::optional<Filter> about) const {
    if (shared_->contrast == Contrast::graded) return {1, 0};
    if (!shared_->filters.empty()) {
        const PackFilter filter =
            grade == kGrade00 && shared_->takes_00
                ? shared_->softer(shared_->filters.front())
                : between(shared_->filters, std::clamp(grade, shared_->span.first, shared_->span.second));
        return shared_->paper.filter(filter.balance, filter.speed);
    }
    const double wanted = std::clamp(iso_range_of_grade(grade), shared_->hardest, shared_->softest);
    const double habit = shared_->habits.balance(grade);
    const double balance =
        about ? shared_->paper.balance_for(wanted, std::log10(about->green / about->blue) - habit)
              : shared_->paper.balance_for(wanted);
    return shared_->paper.filter(balance + habit, shared_->habits.speed(grade));
}

double FilterSet::log_exposure(const Filter& filter, double share, std::optional<double> about) const {
    const double threshold = shared_->threshold;
    return (about ? shared_->paper.exposure(filter, share, *about + threshold)
                  : shared_->paper.exposure(filter, share)) -
           threshold;
}

Filter filter_for(const Pack& pack, const PaperModel& model, double grade) {
    return FilterSet(pack, model, std::make_shared<const ShareTable>(model.emulsion.grains)).at(grade);
}

}  // namespace fogproof::pack
