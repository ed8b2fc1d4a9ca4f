// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/unknowns.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "fit/predictor.hpp"
#include "fit/treated_patch.hpp"
#include "fogproof/pack/grades.hpp"
#include "pack/fresh_paper.hpp"
#include "pack/schema.hpp"
#include "pack/uncertainty.hpp"

namespace fogproof::fit {
namespace {

// Densities that a slip or a black settles at once; a default says next to nothing about them. Judgement.
struct Open {
    std::string_view name;
    double doubt;
};
constexpr std::array kOpen{Open{"paper.white", 0.1}, Open{"paper.black", 0.3}, Open{"fog.blank", 0.5},
                           Open{"speed.log_seconds", 1.5}};
// Densities say nothing about colour, nothing that a fit could use about how readings were taken, and nobody
// says how far from the edge a strip was cut.
constexpr std::array<std::string_view, 5> kLeftAlone{"tone", "anchor", "bath", "scatter", kEdgeFogSection};
// Far below what any reading can tell from none.
constexpr std::string_view kGreenSpread = "grains.green_spread";
// log10; without any spread the paper's own departure among the greens falls away at once, which no slope
// foretells.
constexpr double kLeastGreenSpread = 0.01;
constexpr double kLeastShare = 1e-3;

// log10 of green over blue: how far filters lie from what is common to their set (kFilterSetSection). Sets
// are made even. Judgement.
constexpr double kRest = 0.05, kRestReach = 1.5;
// log10 exposure: the same of their speeds. Judgement.
constexpr double kSpeedRest = 0.075, kSpeedReach = 2, kSpeedCommon = 0.03;
// What soft filters let through acts on the green sensitivity of a paper, and papers differ in that: by so
// much in log10 exposure for the square of each grade below the middle, a stop at filter 0. A set made to
// keep the speed keeps it on the paper it was made for. Judgement, tried on computed papers.
constexpr double kSoftSpeed = 0.05;
constexpr double kLargestBalance = 4.5;

double doubt_of(const Pack& pack, const PackNumber& row) {
    const Knowledge known = pack.known(row.name());
    const auto open = std::ranges::find(kOpen, row.name(), &Open::name);
    const bool is_open = known.origin == Origin::assumed && !known.deviation && open != kOpen.end();
    return is_open ? open->doubt : deviation_of(pack, row);
}

bool may_move(const Pack& pack, const PackNumber& row) {
    if (row.doubt <= 0 || std::ranges::find(kLeftAlone, row.section) != kLeftAlone.end()) return false;
    if (row.section == "enlarger") return row.key == "reciprocity" || row.key == "callier";
    if (row.key == "white_a" || row.key == "white_b" || row.key == "per_kelvin") return false;
    if (!applies(pack, row) || is_of_toner(row)) return false;  // no reading is of a toned patch
    if (row.name() == "grains.spread") return pack.contrast == Contrast::variable;
    return row.name() != kGreenSpread || pack.contrast == Contrast::variable;
}

double covariance(double a, double b, double common, double slope, double rest, double reach) {
    constexpr double kMiddle = FilterSetHabits::kMiddleGrade;
    return common * common + slope * slope * (a - kMiddle) * (b - kMiddle) +
           rest * rest * std::exp(-std::abs(a - b) / reach);
}

double soft_share(double grade) {
    return std::pow(std::clamp(FilterSetHabits::kMiddleGrade - grade, 0.0, FilterSetHabits::kMiddleGrade), 2);
}

}  // namespace

double Unknown::of(const Pack& pack) const {
    const double value = in(const_cast<Pack&>(pack));
    return by_factor ? std::log(std::max(value, std::exp(lowest))) : value;
}

void Unknown::put(Pack& pack, double x) const {
    in(pack) = by_factor ? std::exp(x) : x;
}

double Unknown::deviation(double x, double sd) const {
    return by_factor ? std::exp(x) * std::expm1(sd) : sd;
}

std::vector<double> grades_read(const Pack& prior, std::span<const Reading> readings) {
    std::set<double> grades;
    for (const auto& reading : readings) {
        const TreatedPatch patch = treated(reading, prior);
        if (patch.filter && patch.exposure_s > 0 && patch.develop_s > 0) grades.insert(*patch.filter);
    }
    return {grades.begin(), grades.end()};
}

FilterPrior filter_prior(const Pack& prior, std::vector<double> grades) {
    const PaperModel model = paper_model(prior);
    const FreshPaper paper(model);
    FilterPrior filters{std::move(grades), {}, {}, {}, {}};
    for (const double grade : filters.grades) {
        const double wanted =
            std::clamp(iso_range_of_grade(grade), paper.hardest_range() + 1, paper.softest_range() - 1);
        filters.balance.push_back(std::clamp(paper.balance_for(wanted) + prior.filter_set.balance(grade),
                                             -kLargestBalance, kLargestBalance));
        filters.speed.push_back(prior.filter_set.speed(grade));
    }
    const auto doubt = [&prior](std::string_view key) {
        return deviation_of(prior, *pack_number(std::string(kFilterSetSection) + "." + std::string(key)));
    };
    const double shift = doubt("shift"), slope = doubt("slope"), loss = doubt("loss"),
                 hard = doubt("hard_loss");
    for (const double a : filters.grades)
        for (const double b : filters.grades) {
            filters.balance_covariance.push_back(covariance(a, b, shift, slope, kRest, kRestReach));
            filters.speed_covariance.push_back(covariance(a, b, kSpeedCommon, loss, kSpeedRest, kSpeedReach) +
                                               hard * hard * FilterSetHabits::hard_share(a) *
                                                   FilterSetHabits::hard_share(b) +
                                               kSoftSpeed * kSoftSpeed * soft_share(a) * soft_share(b));
        }
    return filters;
}

std::vector<Unknown> unknowns_of(const Pack& prior) {
    std::vector<Unknown> unknowns;
    for (const auto& row : pack_numbers()) {
        if (!may_move(prior, row)) continue;
        Unknown unknown;
        unknown.name = row.name();
        unknown.by_factor = goes_by_factor(row) && row.of(prior) > 0;
        unknown.is_departure = is_departure(row);
        unknown.in = row.in;
        unknown.prior_value = row.of(prior);
        unknown.prior_knowledge = prior.known(row.name());
        const double doubt = doubt_of(prior, row);
        if (unknown.by_factor) {
            unknown.lowest = std::log(std::max(row.minimum, kLeastShare * row.of(prior)));
            unknown.highest = std::log(row.maximum);
            unknown.prior = std::log(row.of(prior));
            unknown.doubt = std::log1p(doubt / row.of(prior));
        } else {
            unknown.lowest = row.minimum;
            if (row.name() == kGreenSpread) unknown.lowest = std::min(kLeastGreenSpread, row.of(prior));
            unknown.highest = row.maximum;
            unknown.prior = row.of(prior);
            unknown.doubt = doubt;
        }
        unknowns.push_back(std::move(unknown));
    }
    for (std::size_t i = 0; i < prior.filters.size(); ++i)
        for (const auto& row : filter_numbers()) {
            if (row.key == "grade") continue;
            Unknown unknown;
            unknown.name = filter_number_name(prior.filters[i], row.key);
            unknown.in = [i, in = row.in](Pack& pack) -> double& { return in(pack.filters[i]); };
            unknown.prior = unknown.prior_value = row.of(prior.filters[i]);
            unknown.lowest = row.minimum;
            unknown.highest = row.maximum;
            unknown.prior_knowledge = prior.known(unknown.name);
            unknowns.push_back(std::move(unknown));
        }
    return unknowns;
}

}  // namespace fogproof::fit
