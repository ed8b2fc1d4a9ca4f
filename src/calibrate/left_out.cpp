// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "calibrate/left_out.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "calibrate/slips_of_pen.hpp"

namespace fogproof {
namespace {

// A strip is out of line beyond so many standard deviations, and looked at more closely beyond so many.
constexpr double kOutOfLine = 3, kLookedAt = 1.5;
// D; a strip that is off by less spoils no print, and of ten good strips one may well be so far off: chance
// must then be out of the question. Strips off by still less are never named. Judgement.
constexpr double kSpoils = 0.05, kNoChance = 5, kWorthWords = 0.02;
// Strips that are looked at more closely, the farthest first.
constexpr std::size_t kMostLookedAt = 12;

// The readings of some strips, or of all others, and their rows of the fit.
struct Part {
    std::vector<Reading> readings;
    std::vector<double> residuals;
    Fitted fit;
};
Part part_of(const Fitted& all, std::span<const Reading> readings, std::span<const std::string> strips,
             bool inside) {
    Part part;
    std::vector<Eigen::Index> rows;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const auto has = [&](const std::string& name) { return is_part_of(readings[i].strip, name); };
        if (std::ranges::any_of(strips, has) != inside) continue;
        rows.push_back(Eigen::Index(i));
        part.readings.push_back(readings[i]);
        part.residuals.push_back(all.densities[i] - readings[i].density);
    }
    part.fit.effect = all.effect(rows, Eigen::all);
    part.fit.at_prior = all.at_prior(rows);
    return part;
}

// Squares that are chi squared of so many, as standard deviations of a normal chance (Wilson and Hilferty
// 1931).
double sigmas_of(double squares, double count) {
    const double spread = 2 / (9 * count);
    return (std::cbrt(squares / count) - (1 - spread)) / std::sqrt(spread);
}

LeftOut left_out(const Part& rest, const Part& out, const Pack& nominal, const Errors& errors) {
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
    // What the others leave open is one more set of shared errors.
    const Eigen::MatrixXd open = known.matrixL().solve(out.fit.effect.transpose()).transpose();
    const Likeness likeness(out.readings, nominal);
    const SharedErrors together = likeness.shared(errors);
    SharedErrors all(misses.size(), together.cols() + n);
    std::vector<Eigen::Triplet<double>> cells;
    for (Eigen::Index k = 0; k < together.outerSize(); ++k)
        for (SharedErrors::InnerIterator at(together, k); at; ++at)
            cells.emplace_back(int(at.row()), int(at.col()), at.value());
    for (Eigen::Index i = 0; i < open.rows(); ++i)
        for (Eigen::Index j = 0; j < n; ++j) cells.emplace_back(int(i), int(together.cols() + j), open(i, j));
    all.setFromTriplets(cells.begin(), cells.end());
    const ErrorSpread chance(likeness.own(errors), std::move(all));
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
                 const Errors& errors, std::span<const std::string> strips) {
    return left_out(part_of(all, readings, strips, false), part_of(all, readings, strips, true), nominal,
                    errors);
}

std::vector<OutOfLine> strips_out_of_line(const Fitted& all, std::span<const Reading> readings,
                                          const Pack& nominal, const Errors& errors, bool is_sheet_stated) {
    const auto strips = strips_in(readings);
    if (strips.size() < 2) return {};
    std::vector<OutOfLine> looked_at;
    for (const auto& strip : strips) {
        const LeftOut left = left_out(all, readings, nominal, errors, std::span(&strip, 1));
        if (left.sigmas > kLookedAt) looked_at.push_back({strip, left.rms, left.sigmas});
    }
    std::ranges::stable_sort(looked_at, std::greater<>(), &OutOfLine::sigmas);
    if (looked_at.size() > kMostLookedAt) looked_at.resize(kMostLookedAt);
    std::vector<OutOfLine> found;
    for (const auto& one : looked_at) {
        const auto strip = std::span(&one.strip, 1);
        const Part rest = part_of(all, readings, strip, false);
        const Likeness likeness(rest.readings, nominal);
        Errors anew = learnt_errors(rest.readings, likeness, errors, rest.residuals, all.free_numbers);
        if (!is_sheet_stated) anew.sheet = learnt_sheet_scatter(likeness, anew, rest.fit).value;
        const LeftOut left = left_out(rest, part_of(all, readings, strip, true), nominal, anew);
        const bool is_large = left.rms > kSpoils;
        if (left.sigmas > (is_large ? kOutOfLine : kNoChance) && left.rms > kWorthWords)
            found.push_back({one.strip, left.rms, left.sigmas});
    }
    return found;
}

}  // namespace fogproof
