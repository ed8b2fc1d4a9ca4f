// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/pack_summary.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>

#include "base/stop.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/uncertainty.hpp"
#include "print/clearing.hpp"
#include "system/threads.hpp"

namespace fogproof::proof {
namespace {

// Amounts worth a line: up to what a printer would still call restrainer and not a cure. Judgement.
constexpr std::array kRestrainer_ml_l{5.0, 10.0, 20.0, 40.0, 80.0};
constexpr std::array kClearingPercents{50.0, 100.0, 150.0};
constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

Recipe at_grade(double grade) {
    Recipe recipe;
    recipe.exposures = {{grade, Stops{0}}};
    return recipe;
}

TreatedSheet sheet_of(const Pack& pack, const PaperModel& paper, const Recipe& recipe) {
    const PrintSteps steps = unit_steps(pack, paper, recipe);
    return {paper, steps.develop, steps.finishing};
}

// Answers of a pack with their 95 %; not a number where there is none on the likeliest pack.
std::vector<Interval> intervals(const PackAnswers& ask, const Pack& pack, double scatter = 0) {
    const std::vector<double> middle = ask(pack), deviation = deviations(ask, pack);
    std::vector<Interval> all;
    for (std::size_t i = 0; i < middle.size(); ++i) {
        const double half = kWithin95Percent * std::hypot(deviation[i], scatter);
        all.push_back({middle[i], middle[i] - half, middle[i] + half});
    }
    return all;
}

Interval no_lighter_than(Interval density, double white) {
    density.low = std::max(density.low, std::min(white, density.value));
    return density;
}

// Blank sheets through a row of recipes.
std::vector<White> whites(const Pack& pack, const PaperModel& paper, const std::vector<Recipe>& recipes) {
    const PackAnswers densities = [&](const Pack& moved) {
        const PaperModel model = paper_model(moved);
        std::vector<double> answers;
        for (const Recipe& recipe : recipes)
            answers.push_back(sheet_of(moved, model, recipe).border().density.value);
        return answers;
    };
    const auto density = intervals(densities, pack, unexplained_scatter(pack));
    std::vector<White> all;
    for (std::size_t i = 0; i < recipes.size(); ++i)
        all.push_back({no_lighter_than(density[i], pack.sheet.white_density),
                       sheet_of(pack, paper, recipes[i]).border().lab});
    return all;
}

White fixed_white(const Pack& pack, const PaperModel& paper, const Recipe& recipe) {
    const PackAnswers density = [](const Pack& moved) { return std::vector{moved.sheet.white_density}; };
    const TreatedSheet sheet = sheet_of(pack, paper, recipe);
    White white{intervals(density, pack).front(), sheet.fixed_only().lab};
    white.density.value = sheet.fixed_only().density.value;
    white.density.low = std::max(white.density.low, 0.0);
    return white;
}

std::vector<RestrainedWhite> restrained_whites(const Pack& pack, const PaperModel& paper,
                                               const Recipe& plain) {
    std::vector<Recipe> recipes;
    for (const double amount : kRestrainer_ml_l) {
        recipes.push_back(plain);
        recipes.back().restrainer_ml_l = amount;
    }
    const PackAnswers lost = [&](const Pack& moved) {
        const PaperModel fresh = before_fog(paper_model(moved));
        const auto speed = [&](const Recipe& recipe) { return working_numbers(moved, fresh, recipe); };
        const auto before = speed(plain);
        std::vector<double> answers;
        for (const Recipe& recipe : recipes) {
            const auto slower = speed(recipe);
            answers.push_back(before && slower ? (slower->speed.value - before->speed.value) / kLogPerStop
                                               : 0.0);
        }
        return answers;
    };
    const auto white = whites(pack, paper, recipes);
    auto stops = intervals(lost, pack);
    std::vector<RestrainedWhite> rows;
    for (std::size_t i = 0; i < recipes.size(); ++i) {
        stops[i].low = std::max(stops[i].low, 0.0);  // restrainer never makes faster
        rows.push_back({recipes[i].restrainer_ml_l, white[i], stops[i]});
    }
    return rows;
}

// A time is known by a factor either way, so its interval is taken in logs.
Interval time_interval(const std::function<double(const Pack&)>& seconds, const Pack& pack) {
    const PackAnswers log_seconds = [&](const Pack& moved) {
        return std::vector{std::log10(seconds(moved))};
    };
    const Interval log_time = intervals(log_seconds, pack).front();
    return {std::pow(10.0, log_time.value), std::pow(10.0, log_time.low), std::pow(10.0, log_time.high)};
}

std::vector<BleachedWhite> bleached_whites(const Pack& pack, const PaperModel& paper, const Recipe& plain) {
    std::vector<BleachedWhite> rows;
    if (!clearing_dose(paper, develop_step(pack, plain))) return rows;
    std::vector<Recipe> recipes;
    for (const double percent : kClearingPercents) {
        recipes.push_back(plain);
        recipes.back().bleach = ClearingPercent{percent};
    }
    const auto white = whites(pack, paper, recipes);
    for (std::size_t i = 0; i < recipes.size(); ++i) {
        const auto seconds = [&](const Pack& moved) {
            return bleach_step(moved, paper_model(moved), recipes[i]).time.value;
        };
        rows.push_back({kClearingPercents[i], time_interval(seconds, pack), white[i]});
    }
    return rows;
}

// Ranges of one grade: fresh, as the pack is, cleared.
std::vector<double> ranges(const Pack& pack, double grade) {
    const PaperModel paper = paper_model(pack);
    const auto range = [&](const PaperModel& state, const Recipe& recipe) {
        const auto numbers = working_numbers(pack, state, recipe);
        return numbers ? numbers->iso_range : kNone;
    };
    Recipe recipe = at_grade(grade);
    std::vector<double> all{range(before_fog(paper), recipe), range(paper, recipe), kNone};
    recipe.bleach = ClearingPercent{100};
    if (clearing_dose(paper, develop_step(pack, recipe))) all[2] = range(paper, recipe);
    return all;
}

std::vector<GradeRanges> grade_ranges(const Pack& pack, const std::vector<double>& grades) {
    std::vector<GradeRanges> rows(grades.size());
    in_parallel(grades.size(), [&](std::size_t i) {
        const auto all = intervals([&](const Pack& moved) { return ranges(moved, grades[i]); }, pack);
        const auto where_there = [](const Interval& range) {
            return std::isfinite(range.value) ? std::optional(range) : std::nullopt;
        };
        rows[i] = {grades[i], where_there(all[0]), where_there(all[1]), where_there(all[2])};
    });
    return rows;
}

}  // namespace

PackSummary pack_summary(const Pack& pack) {
    const PaperModel paper = paper_model(pack);
    const auto grades = grades_of(pack, paper);
    const Recipe recipe = at_grade(grades[(grades.size() - 1) / 2]);
    PackSummary summary;
    summary.fixed_only = fixed_white(pack, paper, recipe);
    summary.blank = whites(pack, paper, {recipe}).front();
    summary.black =
        intervals([](const Pack& moved) { return std::vector{moved.black_density}; }, pack).front();
    summary.restrained = restrained_whites(pack, paper, recipe);
    summary.bleached = bleached_whites(pack, paper, recipe);
    summary.grades = grade_ranges(pack, grades);
    const auto speed = [](const Pack& moved) {
        return time_at_anchor({moved.speed_log_s}, moved.enlarger).value;
    };
    summary.speed_s = time_interval(speed, pack);
    if (pack.anchored && pack.anchor_lux > 0)
        summary.iso_speed = rounded_iso_speed(pack.anchor_lux * summary.speed_s.value);
    return summary;
}

}  // namespace fogproof::proof
