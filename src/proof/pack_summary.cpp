// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/pack_summary.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/treated_sheet.hpp"
#include "pack/uncertainty.hpp"
#include "proof/pack_findings.hpp"

namespace fogproof::proof {
namespace {

Interval no_lighter_than(Interval density, double white) {
    density.low = std::max(density.low, std::min(white, density.value));
    return density;
}

// Findings of a pack with their 95 %.
class Doubts {
  public:
    explicit Doubts(const WorkedPacks& worked)
        : pack_(worked.likeliest().pack()),
          paper_(worked.likeliest().paper()),
          asked_(worked.asked([about = pack_findings(worked.likeliest())](const WorkedPack& moved) {
              return pack_findings(moved, about);
          })) {}

    [[nodiscard]] const PackFindings& likeliest() const { return asked_.likeliest(); }
    template <class Number>
    [[nodiscard]] Interval interval(const Number& number, double scatter = 0) const {
        const double middle = number(likeliest());
        const double half = kWithin95Percent * std::hypot(asked_.deviation(number), scatter);
        return {middle, middle - half, middle + half};
    }
    template <class Number>
    [[nodiscard]] std::optional<Interval> interval_if_any(const Number& number) const {
        return std::isfinite(number(likeliest())) ? std::optional(interval(number)) : std::nullopt;
    }
    // A time is known by a factor either way, so its interval is taken in logs.
    template <class Number>
    [[nodiscard]] Interval seconds(const Number& log_s) const {
        const Interval log = interval(log_s);
        return {std::pow(10.0, log.value), std::pow(10.0, log.low), std::pow(10.0, log.high)};
    }
    // The blank sheet of a recipe, whose density is a finding.
    template <class Number>
    [[nodiscard]] White white(const Number& density, const Recipe& recipe) const {
        const TreatedSheet sheet(paper_, develop_step(pack_, recipe),
                                 {bleach_step(pack_, paper_, recipe).dose, Seconds{0}});
        return {no_lighter_than(interval(density, unexplained_scatter(pack_, 0)), pack_.sheet.white_density),
                sheet.border().lab};
    }

  private:
    const Pack& pack_;
    const PaperModel& paper_;
    Doubted<PackFindings> asked_;
};

White fixed_white(const Doubts& doubts, const Pack& pack, const PaperModel& paper) {
    const Patch fixed = TreatedSheet(paper, nominal_step(pack.development)).fixed_only();
    White white{doubts.interval(std::mem_fn(&PackFindings::fixed_only)), fixed.lab};
    white.density.value = fixed.density.value;
    white.density.low = std::max(white.density.low, 0.0);
    return white;
}

std::vector<RestrainedWhite> restrained_whites(const Doubts& doubts) {
    std::vector<RestrainedWhite> rows;
    for (std::size_t i = 0; i < kRestrainer_ml_l.size(); ++i) {
        Recipe recipe;
        recipe.restrainer_ml_l = kRestrainer_ml_l[i];
        Interval stops = doubts.interval([=](const PackFindings& found) { return found.stops_lost[i]; });
        stops.low = std::max(stops.low, 0.0);  // restrainer never makes faster
        rows.push_back({recipe.restrainer_ml_l,
                        doubts.white([=](const PackFindings& found) { return found.restrained[i]; }, recipe),
                        stops});
    }
    return rows;
}

std::vector<BleachedWhite> bleached_whites(const Doubts& doubts) {
    std::vector<BleachedWhite> rows;
    for (std::size_t i = 0; i < kClearingPercents.size(); ++i) {
        if (!std::isfinite(doubts.likeliest().bleached[i])) continue;
        Recipe recipe;
        recipe.bleach = ClearingPercent{kClearingPercents[i]};
        rows.push_back({kClearingPercents[i],
                        doubts.seconds([=](const PackFindings& found) { return found.bleach_log_s[i]; }),
                        doubts.white([=](const PackFindings& found) { return found.bleached[i]; }, recipe)});
    }
    return rows;
}

std::vector<GradeRanges> grade_ranges(const Doubts& doubts, const std::vector<double>& grades) {
    std::vector<GradeRanges> rows;
    for (std::size_t i = 0; i < grades.size(); ++i) {
        const auto range = [&](PackFindings::Ends PackFindings::Grade::*state) {
            return doubts.interval_if_any(
                [=](const PackFindings& found) { return (found.grades[i].*state).iso_range(); });
        };
        rows.push_back({grades[i], range(&PackFindings::Grade::fresh), range(&PackFindings::Grade::fogged),
                        range(&PackFindings::Grade::cleared)});
    }
    return rows;
}

}  // namespace

PackSummary pack_summary(const WorkedPacks& worked) {
    const Pack& pack = worked.likeliest().pack();
    const Doubts doubts(worked);
    PackSummary summary;
    summary.fixed_only = fixed_white(doubts, pack, worked.likeliest().paper());
    summary.blank = doubts.white(std::mem_fn(&PackFindings::blank), {});
    summary.black = doubts.interval(std::mem_fn(&PackFindings::black));
    summary.black_cleared = doubts.interval_if_any(std::mem_fn(&PackFindings::black_cleared));
    summary.restrained = restrained_whites(doubts);
    summary.bleached = bleached_whites(doubts);
    summary.grades = grade_ranges(doubts, worked.likeliest().grades());
    summary.speed_s = doubts.seconds(std::mem_fn(&PackFindings::speed_log_s));
    if (pack.darkroom.anchored && pack.darkroom.anchor_lux > 0)
        summary.iso_speed = rounded_iso_speed(pack.darkroom.anchor_lux * summary.speed_s.value);
    return summary;
}

}  // namespace fogproof::proof
