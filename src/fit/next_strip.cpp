// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/next_strip.hpp"

#include <Eigen/Dense>
#include <cmath>
#include <vector>

#include "base/words.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/grade_words.hpp"
#include "pack/uncertainty.hpp"
#include "print/clearing.hpp"
#include "print/response.hpp"

namespace fogproof::fit {
namespace {

constexpr double kReadingError = 0.01;  // D; common practice, no source
constexpr std::size_t kPatches = 7;     // every third half-stop of a wedge: enough to weigh a strip by
constexpr double kWedgeStep = 0.45;

struct Way {
    std::optional<double> grade;
    double restrainer_ml_l, bleach_s;
};

// Densities of a wedge whose clear end is black.
void add_wedge(const Pack& pack, const PaperModel& paper, const Way& way, double clear_log_h,
               std::vector<double>& answers) {
    Recipe recipe;
    recipe.exposures = {{way.grade, Stops{0}}};
    recipe.restrainer_ml_l = way.restrainer_ml_l;
    recipe.bleach = Seconds{way.bleach_s};
    const Response response(paper, pack.enlarger, unit_steps(pack, paper, recipe));
    for (std::size_t step = 0; step < kPatches; ++step)
        answers.push_back(response.density({clear_log_h - kWedgeStep * double(step)}).value);
}

std::vector<Way> candidates(const Pack& pack, const std::vector<double>& grades, double clearing_s) {
    std::vector<Way> ways;
    for (const double grade : grades)
        for (const double restrainer : {0.0, 15.0})
            for (const double share : {0.0, 0.5, 1.0})
                ways.push_back({pack.contrast == Contrast::graded ? std::nullopt : std::optional(grade),
                                restrainer, std::round(share * clearing_s)});
    return ways;
}

double half_width(const Eigen::MatrixXd& covariance) {
    return kWithin95Percent * std::sqrt(std::max(0.0, covariance.trace() / double(covariance.rows())));
}

}  // namespace

std::string NextStrip::in_words() const {
    std::string words = grade ? "a wedge through grade " + grade_name(*grade) : "a wedge";
    words += ", restrainer " + decimal(restrainer_ml_l, 0) + " ml/L";
    return words + (bleach_s > 0 ? ", bleached " + decimal(bleach_s, 0) + " s" : ", not bleached");
}

std::optional<NextStrip> next_strip(const Pack& pack) {
    const PaperModel paper = paper_model(pack);
    const auto grades = grades_of(pack, paper);
    const DevelopStep develop = nominal_step(pack.development);
    const double clearing_s =
        bleach_time(paper.bleach, pack.bath, clearing_dose(paper, develop).value_or(0)).value;
    const double middle = grades[grades.size() / 2];
    const auto ways = candidates(pack, grades, clearing_s);
    constexpr double kBlack = 1.3;  // log10 exposure over the speed point
    const double clear_log_h = pack.speed_log_s + kBlack;

    // The next print first, then all candidates: one pass over the pack's doubts serves them all.
    const PackAnswers ask = [&](const Pack& moved) {
        const PaperModel model = paper_model(moved);
        std::vector<double> answers;
        add_wedge(moved, model, {ways.front().grade ? std::optional(middle) : std::nullopt, 0, clearing_s},
                  clear_log_h, answers);
        for (const Way& way : ways) add_wedge(moved, model, way, clear_log_h, answers);
        return answers;
    };
    const auto moves = changes(ask, pack);
    if (moves.empty()) return std::nullopt;
    const auto doubts = Eigen::Index(moves.size()), size = Eigen::Index(kPatches);
    Eigen::MatrixXd effect(size * Eigen::Index(ways.size() + 1), doubts), correlated(doubts, doubts);
    for (Eigen::Index j = 0; j < doubts; ++j) {
        for (Eigen::Index i = 0; i < effect.rows(); ++i)
            effect(i, j) = moves[std::size_t(j)].by[std::size_t(i)];
        for (Eigen::Index k = 0; k < doubts; ++k)
            correlated(j, k) = correlation(pack.fit, moves[std::size_t(j)].name, moves[std::size_t(k)].name);
    }
    const Eigen::MatrixXd wanted = effect.topRows(size), spread = wanted * correlated;
    const Eigen::MatrixXd now = spread * wanted.transpose();
    std::optional<NextStrip> best;
    for (std::size_t c = 0; c < ways.size(); ++c) {
        const Eigen::MatrixXd strip = effect.middleRows(size * Eigen::Index(c + 1), size);
        Eigen::MatrixXd read = strip * correlated * strip.transpose();
        read.array() += pack.sheet_scatter * pack.sheet_scatter;  // of the strip as a whole
        read.diagonal().array() += kReadingError * kReadingError;
        const Eigen::MatrixXd across = spread * strip.transpose();
        const double then = half_width(now - across * read.ldlt().solve(across.transpose()));
        if (!best || then < best->doubt_then)
            best = NextStrip{ways[c].grade, ways[c].restrainer_ml_l, ways[c].bleach_s,
                             middle,        half_width(now),         then};
    }
    return best;
}

}  // namespace fogproof::fit
