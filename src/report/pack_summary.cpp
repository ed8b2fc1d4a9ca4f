// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/pack_summary.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "fogproof/pack/grades.hpp"
#include "fogproof/pack/uncertainty.hpp"
#include "fogproof/print/clearing.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"

namespace fogproof {
namespace {

// Amounts worth a line: up to what a printer would still call restrainer and not a cure. Judgement.
constexpr std::array kRestrainer_ml_l{5.0, 10.0, 20.0, 40.0, 80.0};
constexpr std::array kClearingPercents{50.0, 100.0, 150.0};

Recipe at_grade(double grade) {
    Recipe recipe;
    recipe.exposures = {{grade, Stops{0}}};
    return recipe;
}

White white_of(const Patch& patch) {
    return {patch.density, patch.lab};
}

White border_white(const Pack& pack, const PaperModel& paper, const Recipe& recipe) {
    return white_of(PrintModel(paper, pack.enlarger, unit_steps(pack, paper, recipe), 1.0).border());
}

PaperModel without_fog(PaperModel paper) {
    paper.emulsion.fog.share = 0;
    return paper;
}

std::vector<RestrainedWhite> restrained_whites(const Pack& pack, const PaperModel& paper, Recipe recipe) {
    const PaperModel fresh = without_fog(paper);
    const auto speed = [&] { return working_numbers(pack, fresh, recipe); };
    const auto plain = speed();
    std::vector<RestrainedWhite> whites;
    for (const double amount : kRestrainer_ml_l) {
        recipe.restrainer_ml_l = amount;
        const auto slower = speed();
        const double lost =
            plain && slower ? (slower->speed.value - plain->speed.value) / std::log10(2.0) : 0.0;
        whites.push_back({amount, border_white(pack, paper, recipe), lost});
    }
    return whites;
}

// A time is known by a factor either way, so its interval is taken in logs.
Interval bleach_interval(const Pack& pack, const Recipe& recipe) {
    const PackAnswers log_seconds = [&](const Pack& moved) {
        return std::vector{std::log10(bleach_seconds(moved, paper_model(moved), recipe).value)};
    };
    const double middle = log_seconds(pack).front();
    const double half = kWithin95Percent * deviations(log_seconds, pack).front();
    return {std::pow(10.0, middle), std::pow(10.0, middle - half), std::pow(10.0, middle + half)};
}

std::vector<BleachedWhite> bleached_whites(const Pack& pack, const PaperModel& paper, Recipe recipe) {
    std::vector<BleachedWhite> whites;
    if (!clearing_dose(paper, develop_step(pack, recipe))) return whites;
    for (const double percent : kClearingPercents) {
        recipe.bleach = ClearingPercent{percent};
        whites.push_back({percent, bleach_interval(pack, recipe), border_white(pack, paper, recipe)});
    }
    return whites;
}

std::vector<GradeRanges> grade_ranges(const Pack& pack, const PaperModel& paper) {
    const PaperModel fresh = without_fog(paper);
    const auto range = [&](const PaperModel& state, const Recipe& recipe) {
        const auto numbers = working_numbers(pack, state, recipe);
        return numbers ? std::optional(numbers->iso_range) : std::nullopt;
    };
    std::vector<GradeRanges> rows;
    for (const double grade : grades_of(pack, paper)) {
        Recipe recipe = at_grade(grade);
        GradeRanges row{grade, range(fresh, recipe), range(paper, recipe), std::nullopt};
        recipe.bleach = ClearingPercent{100};
        if (clearing_dose(paper, develop_step(pack, recipe))) row.cleared = range(paper, recipe);
        rows.push_back(row);
    }
    return rows;
}

}  // namespace

PackSummary pack_summary(const Pack& pack) {
    const PaperModel paper = paper_model(pack);
    const auto grades = grades_of(pack, paper);
    const Recipe recipe = at_grade(grades[(grades.size() - 1) / 2]);
    const PrintModel print(paper, pack.enlarger, unit_steps(pack, paper, recipe), 1.0);
    PackSummary summary;
    summary.fixed_only = white_of(print.fixed_only());
    summary.blank = white_of(print.border());
    summary.black = {pack.black_density};
    summary.restrained = restrained_whites(pack, paper, recipe);
    summary.bleached = bleached_whites(pack, paper, recipe);
    summary.grades = grade_ranges(pack, paper);
    summary.speed_s = std::pow(10.0, pack.speed_log_s);
    if (pack.anchored && pack.anchor_lux > 0)
        summary.iso_speed = rounded_iso_speed(pack.anchor_lux * summary.speed_s);
    return summary;
}

}  // namespace fogproof
