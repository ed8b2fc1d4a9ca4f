// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/left_out.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <set>

#include "fit/fewer.hpp"
#include "fit/slips_of_pen.hpp"
#include "fit/suspicions.hpp"
#include "system/threads.hpp"

namespace fogproof::fit {
namespace {

// A strip is out of line beyond so many standard deviations, and looked at more closely beyond so many.
constexpr double kOutOfLine = 3, kLookedAt = 1.5;
// D; a strip that is off by less spoils no print, and of ten good strips one may well be so far off: chance
// must then be out of the question. Strips off by still less are never named. Judgement.
constexpr double kSpoils = 0.05, kNoChance = 5, kWorthWords = 0.02;
// D; where the others know a strip no better than this, one standard deviation, the paper bends otherwise
// than the straight lines by which they tell: chance must be out of the question there, too. Judgement.
constexpr double kHardlyKnown = 0.15;
// Strips that are looked at more closely, the farthest first, out of so many most suspicious ones.
constexpr std::size_t kMostLookedAt = 12, kMostSuspicious = 64;
// Of more readings than both so many are asked of the strips in doubt, and so many speak for the others.
constexpr std::size_t kMostInDoubt = 2000, kMostOthers = 2000;

// The readings of some strips, or of all others, and their rows of the fit.
struct Part {
    std::vector<Reading> readings;
    std::vector<double> residuals;
    Fitted fit;
};
Part rows_of(const Fitted& all, std::span<const Reading> readings, const std::vector<std::size_t>& rows) {
    Part part;
    for (const std::size_t row : rows) {
        part.readings.push_back(readings[row]);
        part.residuals.push_back(all.densities[row] - readings[row].density);
        part.fit.densities.push_back(all.densities[row]);
    }
    part.fit.effect = all.effect(rows, Eigen::all);
    part.fit.at_prior = all.at_prior(rows);
    part.fit.free_numbers = all.free_numbers;
    return part;
}
Part part_of(const Fitted& all, std::span<const Reading> readings, std::span<const std::string> strips,
             bool inside) {
    std::vector<std::size_t> rows;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const auto has = [&](const std::string& name) { return is_part_of(readings[i].strip, name); };
        if (std::ranges::any_of(strips, has) == inside) rows.push_back(i);
    }
    return rows_of(all, readings, rows);
}

// Those of the strips and of others, no more than it takes.
Part asked_of(const Fitted& all, std::span<const Reading> readings, const Pack& nominal,
              std::span<const std::string> strips) {
    const std::set<std::string> names(strips.begin(), strips.end());
    std::vector<std::size_t> rows[2], kept;
    std::vector<Reading> kinds[2];
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const bool is_in_doubt = names.contains(readings[i].strip);
        rows[is_in_doubt].push_back(i);
        kinds[is_in_doubt].push_back(readings[i]);
    }
    for (const bool is_in_doubt : {false, true})
        for (const std::size_t at :
             fewer_rows_of(kinds[is_in_doubt], nominal, is_in_doubt ? kMostInDoubt : kMostOthers))
            kept.push_back(rows[is_in_doubt][at]);
    std::ranges::sort(kept);
    return rows_of(all, readings, kept);
}

// Squares that are chi squared of so many, as standard deviations of a normal chance (Wilson and Hilferty
// 1931).
double sigmas_of(double squares, double count) {
    const double spread = 2 / (9 * count);
    return (std::cbrt(squares / count) - (1 - spread)) / std::sqrt(spread);
}

LeftOut left_out(const Part& rest, const Part& out, const Pack& nominal, const ErrorSizes& errors) {
    LeftOut left;
    const ErrorSpread spread = Likeness(rest.readings, nominal).spread(errors);
    const auto n = rest.fit.effect.cols();
    Eigen::MatrixXd slopes(spread.length(), n);
    for (Eigen::Index j = 0; j < n; ++j) slopes.col(j) = spread.whitened(rest.fit.effect.col(j));
    const Eigen::VectorXd at_prior = spread.whitened(rest.fit.at_prior);
    const Eigen::LLT<Eigen::MatrixXd> known(slopes.transpose() * slopes + Eigen::MatrixXd::Identity(n, n));
    const Eigen::VectorXd numbers = -known.solve(slopes.transpose() * at_prior);
    left.cost = ((slopes * numbers + at_prior).squaredNorm() + numbers.squaredNorm()) / 2;

    const Eigen::VectorXd misses = out.fit.at_prior + out.fit.effect * numbers;
    const Eigen::MatrixXd open = known.matrixL().solve(out.fit.effect.transpose()).transpose();
    const Likeness likeness(out.readings, nominal);
    const ErrorSpread chance(likeness.own(errors), with_open_numbers(likeness.shared(errors), open));
    const Eigen::VectorXd weighed = chance.whitened(misses);
    const Eigen::VectorXd shift = chance.whitened(Eigen::VectorXd::Ones(misses.size()));
    // Off as a whole, or in its shape.
    left.sigmas = std::max(std::abs(shift.dot(weighed)) / shift.norm(),
                           sigmas_of(weighed.squaredNorm(), double(misses.size())));
    left.lost = left.cost + double(misses.size()) / 2;
    left.rms = std::sqrt(misses.squaredNorm() / double(misses.size()));
    return left;
}

}  // namespace

LeftOut left_out(const Fitted& all, std::span<const Reading> readings, const Pack& nominal,
                 const ErrorSizes& errors, std::span<const std::string> strips) {
    return left_out(part_of(all, readings, strips, false), part_of(all, readings, strips, true), nominal,
                    errors);
}

std::vector<OutOfLine> strips_out_of_line(const Fitted& of_all, std::span<const Reading> all_readings,
                                          const Pack& nominal, const ErrorSizes& errors,
                                          bool is_sheet_stated) {
    auto strips = strips_in(all_readings);
    if (strips.size() < 2) return {};
    // Every strip that is looked at costs a look at all others, so of many only some are.
    if (strips.size() > kMostSuspicious)
        strips = most_suspicious(strips, suspicions(errors, all_readings, of_all.densities), kMostSuspicious);
    std::optional<Part> some;
    if (all_readings.size() > kMostInDoubt + kMostOthers)
        some = asked_of(of_all, all_readings, nominal, strips);
    const Fitted& all = some ? some->fit : of_all;
    const std::span<const Reading> readings = some ? some->readings : all_readings;
    std::vector<LeftOut> each(strips.size());
    in_parallel(strips.size(), [&](std::size_t i) {
        each[i] = left_out(all, readings, nominal, errors, std::span(&strips[i], 1));
    });
    std::vector<OutOfLine> looked_at;
    for (std::size_t i = 0; i < strips.size(); ++i)
        if (each[i].sigmas > kLookedAt) looked_at.push_back({strips[i], each[i].rms, each[i].sigmas});
    std::ranges::stable_sort(looked_at, std::greater<>(), &OutOfLine::sigmas);
    if (looked_at.size() > kMostLookedAt) looked_at.resize(kMostLookedAt);
    in_parallel(looked_at.size(), [&](std::size_t i) {
        OutOfLine& one = looked_at[i];
        const auto strip = std::span(&one.strip, 1);
        const Part rest = part_of(all, readings, strip, false);
        const Likeness likeness(rest.readings, nominal);
        ErrorSizes anew = learnt_errors(rest.readings, likeness, errors, rest.residuals, all.free_numbers);
        if (!is_sheet_stated) anew.sheet = learnt_sheet_scatter(likeness, anew, rest.fit).value;
        const LeftOut left = left_out(rest, part_of(all, readings, strip, true), nominal, anew);
        one.rms = left.rms;
        one.sigmas = left.sigmas;
    });
    std::erase_if(looked_at, [](const OutOfLine& one) {
        const bool can_tell = one.rms > kSpoils && one.rms < kHardlyKnown * one.sigmas;
        return one.rms <= kWorthWords || one.sigmas <= (can_tell ? kOutOfLine : kNoChance);
    });
    return looked_at;
}

}  // namespace fogproof::fit
