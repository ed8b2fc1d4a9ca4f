// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/fitter.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "fit/scaled_prior.hpp"
#include "fit/treated_patch.hpp"
#include "fogproof/base/error.hpp"
#include "pack/schema.hpp"
#include "system/threads.hpp"

namespace fogproof::fit {
namespace {

// In units of an unknown's doubt; wide against the rounding of the root finders inside the model, and narrow
// enough that the bend of the model over it does not end the search beside the bottom of a flat valley.
constexpr double kDerivativeStep = 2e-5;
// D; a number whose doubt changes no reading by this much has nothing to learn from them.
constexpr double kSpokenAbout = 1e-3;
// Lit patches among which one is likely black: those of a test strip or more. Judgement.
constexpr int kShowsBlack = 5;
// Standard deviations at which a residual begins to count for less. Judgement.
constexpr double kOutlier = 3;
// Of many readings the bend over a step adds up, while nothing but what was known before holds the valley in
// which speed and all filters go together: at 20,000 readings this step shifts it by a thirtieth of its
// doubt.
constexpr double kFineStep = 5e-7;
// Of half chi squared: a step that gains less moves no number by more than a fifth of its deviation.
constexpr double kLeastGain = 0.02;
// Share of the cost at which a fit ends, however few the readings are.
constexpr double kTolerance = 1e-4;
// Half chi squared of each reading, half as a rule, from which a fit is thought to lie in the wrong valley: a
// slow paper of many quick grains looks much like a quick one. Then it sets out anew from speeds so far away,
// log10. Judgement, tried on computed papers.
constexpr double kPoor = 0.8, kOtherSpeeds = 0.3;
// Times the contrast range that a box tells, from which graded paper is fitted too: a grade or so.
constexpr std::array kOtherContrasts{0.75, 1.35};
// Close to the best place a step may go along a valley as far as the slopes say.
constexpr double kFarTrust = 1e4;

double cost_of(std::span<const double> densities, std::span<const Reading> readings) {
    double cost = 0;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const double residual = robust((densities[i] - readings[i].density) / 0.05);
        cost += residual * residual;
    }
    return cost;
}

// The loss of robust() by reweighting (Holland and Welsch 1977), of a reading within its sheet and of the
// sheet. As a loss of both together it shrinks a shift that a sheet's readings share, and with it their
// scatter, the more the larger the shift is: with many readings all densities drift off to gain by that. A
// weight that does not know the shift and is held gains nothing.
double weight_of(double residual) {
    return 1 / std::sqrt(std::sqrt(1 + std::pow(residual / kOutlier, 2)));
}
// Normal errors so weighed, as readings and as sheets, times this keep their variance.
constexpr double kWhole = 1.093;

}  // namespace

// Pseudo-Huber loss as a residual: its square is 2 d^2 (sqrt(1 + (r/d)^2) - 1).
double robust(double residual) {
    const double u = residual / kOutlier;
    return residual * std::sqrt(2 / (1 + std::sqrt(1 + u * u)));
}

Fitter::Fitter(const Prior& prior, std::span<const Reading> readings)
    : prior_(prior),
      readings_(readings.begin(), readings.end()),
      likeness_(readings, prior.pack),
      predictor_(prior.pack, readings),
      lean_(prior.pack) {
    lean_.notes.clear();
    lean_.readings = {};
    lean_.knowledge.clear();
    lean_.fit = {};
}

Pack Fitter::pack_at(const Eigen::VectorXd& x) const {
    Pack pack = lean_;
    for (std::size_t i = 0; i < prior_.unknowns.size(); ++i) prior_.unknowns[i].put(pack, x[Eigen::Index(i)]);
    return pack;
}

std::optional<std::vector<double>> Fitter::asked(const Eigen::VectorXd& x, bool is_detour) {
    try {
        return predictor_.densities(pack_at(x), is_detour);
    } catch (const Error&) {
        return std::nullopt;
    }
}

// The density of what was only fixed, of what was developed without light, and of the darkest patch.
Fitter::ReadOff Fitter::read_off() const {
    const auto mean_density = [&](const auto& wanted) -> std::optional<double> {
        double sum = 0, count = 0;
        for (const auto& reading : readings_)
            if (wanted(treated(reading, prior_.pack))) sum += reading.density, ++count;
        return count > 0 ? std::optional(sum / count) : std::nullopt;
    };
    ReadOff seen;
    seen.white = mean_density([](const TreatedPatch& p) { return p.develop_s <= 0; });
    seen.blank = mean_density([](const TreatedPatch& p) {
        return p.develop_s > 0 && p.exposure_s <= 0 && p.restrainer_ml_l <= 0 && p.bleach_s <= 0;
    });
    for (const auto& reading : readings_) {
        const TreatedPatch patch = treated(reading, prior_.pack);
        seen.darkest = std::max(seen.darkest, reading.density);
        seen.lit += patch.exposure_s > 0 && patch.develop_s > 0 ? 1 : 0;
        seen.has_bleach |= reading.bleach_s > 0;
    }
    return seen;
}

double* Fitter::number_in(Eigen::VectorXd& x, const std::string& name) const {
    const auto found = std::ranges::find(prior_.unknowns, name, &Unknown::name);
    return found == prior_.unknowns.end() ? nullptr : &x[found - prior_.unknowns.begin()];
}

// The place on a grid about where it stands from which one number shows the readings best.
void Fitter::search(Eigen::VectorXd& x, const std::string& name, double reach, double step) {
    double* at = number_in(x, name);
    if (!at) return;
    const double middle = *at;
    double best = middle, least = std::numeric_limits<double>::infinity();
    for (double by = -reach; by <= reach + 1e-9; by += step) {
        *at = middle + by;
        const auto densities = asked(x, true);
        const double cost =
            densities ? cost_of(*densities, readings_) : std::numeric_limits<double>::infinity();
        if (cost < least) least = cost, best = *at;
    }
    *at = best;
}

// Slips and blacks are read off directly, speed and bleach rate searched for: the two that a start far away
// could leave without a slope.
Eigen::VectorXd Fitter::rough_start() {
    Eigen::VectorXd x = prior_.mean;
    const ReadOff seen = read_off();
    double& white = *number_in(x, "paper.white");
    double& black = *number_in(x, "paper.black");
    double& blank = *number_in(x, "fog.blank");
    if (seen.white) white = std::clamp(*seen.white, 0.0, 0.5);
    const double least_black = white + 0.75;
    const double limit = -std::log10(prior_.pack.sheet.surface + 1e-4) - 0.03;
    // The darkest of a few patches may be any tone.
    black = seen.lit >= kShowsBlack && seen.darkest > white + 1
                ? std::clamp(seen.darkest, least_black, std::max(limit, least_black))
                : std::max(black, std::min(limit, least_black));
    if (seen.blank) blank = *seen.blank;
    blank = std::clamp(blank, white, black - 0.05);
    if (seen.lit > 0) search(x, "speed.log_seconds", 2.4, 0.2);
    if (seen.has_bleach) {
        search(x, "bleach.per_second", 2.4, 0.4);
        if (seen.lit > 0) search(x, "speed.log_seconds", 0.3, 0.1);
    }
    return x;
}

void Fitter::choose_active(const Eigen::VectorXd& at) {
    active_.clear();
    const auto middle = asked(at, false);
    if (!middle)
        throw Error(Fault::data, "readings", "no pack can show their white, blank and black together",
                    "white below blank below black");
    std::vector<double> most(prior_.unknowns.size());
    in_parallel(most.size(), [&](std::size_t i) {
        const double doubt = std::sqrt(prior_.covariance(Eigen::Index(i), Eigen::Index(i)));
        double change = 0;
        for (const double way : {-0.5, 0.5}) {
            Eigen::VectorXd x = at;
            const auto& unknown = prior_.unknowns[i];
            x[Eigen::Index(i)] =
                std::clamp(x[Eigen::Index(i)] + way * doubt, unknown.lowest, unknown.highest);
            if (const auto densities = asked(x, true))
                for (std::size_t r = 0; r < densities->size(); ++r)
                    change = std::max(change, std::abs((*densities)[r] - (*middle)[r]));
        }
        most[i] = change;
    });
    for (std::size_t i = 0; i < most.size(); ++i)
        if (2 * most[i] > kSpokenAbout) active_.push_back(i);
}

Fitted Fitter::fitted(const ErrorSizes& errors, const Eigen::VectorXd& start, int most_steps) {
    SquaresProblem problem;
    problem.most_steps = most_steps;
    problem.step = kDerivativeStep;
    problem.tolerance = kTolerance;
    return solved(likeness_.spread(errors), start.size() > 0 ? start : rough_start(), std::move(problem), {});
}

Fitted Fitter::fitted_from_afar(const ErrorSizes& errors, int most_steps) {
    const Eigen::VectorXd rough = rough_start();
    Fitted best = fitted(errors, rough, most_steps);
    for (const double slower : {-kOtherSpeeds, kOtherSpeeds}) {
        if (best.usable() && best.cost < kPoor * double(readings_.size())) break;
        Eigen::VectorXd start = rough;
        *number_in(start, "speed.log_seconds") += slower;
        Fitted other = fitted(errors, start, most_steps);
        if (other.usable() && (!best.usable() || other.cost < best.cost)) best = std::move(other);
    }
    // The number on a box of graded paper may be wrong, and speed and black can make up for a wrong contrast.
    const auto range = std::ranges::find(prior_.unknowns, "paper.iso_range", &Unknown::name);
    if (range == prior_.unknowns.end()) return best;
    for (const double factor : kOtherContrasts) {
        Eigen::VectorXd start = rough;
        double& at = start[range - prior_.unknowns.begin()];
        at =
            std::clamp(range->by_factor ? at + std::log(factor) : at * factor, range->lowest, range->highest);
        Fitted other = fitted(errors, start, most_steps);
        if (other.usable() && (!best.usable() || other.cost < best.cost)) best = std::move(other);
    }
    return best;
}

Fitted Fitter::fitted_near(const ErrorSizes& errors, const Eigen::VectorXd& near, int most_steps,
                           double stand_for) {
    const auto densities = asked(near, false);
    if (!densities) return {};
    Eigen::VectorXd weights(Eigen::Index(readings_.size()));
    for (std::size_t r = 0; r < readings_.size(); ++r)
        weights[Eigen::Index(r)] = (*densities)[r] - readings_[r].density;
    const auto out = likeness_.stands_out(errors, weights);
    for (Eigen::Index r = 0; r < weights.size(); ++r)
        weights[r] = std::sqrt(stand_for) * weight_of(out.of_sheet[r]) * weight_of(out.with_sheet[r]);
    SquaresProblem problem;
    problem.most_steps = most_steps;
    problem.step = kFineStep;
    problem.tolerance = kTolerance;
    problem.least_gain = stand_for * kLeastGain;
    problem.trust = kFarTrust;
    return solved(likeness_.spread(errors), near, std::move(problem), weights);
}

// Outliers weigh as given or, without weights, the less the farther out they come to lie.
Fitted Fitter::solved(const ErrorSpread& spread, const Eigen::VectorXd& from, SquaresProblem problem,
                      const Eigen::VectorXd& weights) {
    if (active_.empty()) choose_active(from);
    const ScaledPrior prior(prior_, active_);
    const Eigen::Index n = prior.size();
    const std::size_t m = readings_.size();
    const auto whitened = spread.length();
    const auto residuals_at = [&](std::span<const double> u, std::span<double> out, bool is_detour) {
        Eigen::VectorXd x = from, counted(static_cast<Eigen::Index>(m));
        for (Eigen::Index i = 0; i < n; ++i)
            x[Eigen::Index(active_[std::size_t(i)])] = prior.mean()[i] + prior.doubt()[i] * u[std::size_t(i)];
        const auto densities = asked(x, is_detour);
        if (!densities) return false;
        for (std::size_t r = 0; r < m; ++r) {
            const double one = spread.unit()[Eigen::Index(r)];
            const double residual = (*densities)[r] - readings_[r].density;
            counted[Eigen::Index(r)] =
                weights.size() > 0 ? weights[Eigen::Index(r)] * residual : one * robust(residual / one);
        }
        Eigen::Map<Eigen::VectorXd>(out.data(), whitened) = spread.whitened(counted);
        const Eigen::VectorXd from_prior =
            prior.doubt().cwiseProduct(Eigen::Map<const Eigen::VectorXd>(u.data(), n));
        Eigen::Map<Eigen::VectorXd>(out.data() + whitened, n) = prior.root().matrixL().solve(from_prior);
        return true;
    };
    problem.residuals = [&](auto u, auto out) { return residuals_at(u, out, false); };
    problem.beside = [&](auto u, auto out) { return residuals_at(u, out, true); };
    problem.count = std::size_t(whitened + n);
    prior.bound(problem, from);
    return told(least_squares(problem), problem, prior, spread, weights.size() > 0 ? kWhole : 1);
}

Fitted Fitter::told(const SquaresSolution& solution, const SquaresProblem& problem, const ScaledPrior& prior,
                    const ErrorSpread& spread, double whole) {
    Fitted result;
    result.ending = solution.ending;
    result.steps = solution.steps;
    result.cost = solution.final_cost;
    if (!solution.usable()) return result;
    result.active.resize(prior_.unknowns.size());
    for (const auto a : active_) result.active[a] = true;
    using Rows = Eigen::Matrix<double, -1, -1, Eigen::RowMajor>;
    const Eigen::Index n = prior.size(), whitened = Eigen::Index(problem.count) - n;
    const Eigen::Map<const Rows> slopes(solution.jacobian.data(), Eigen::Index(problem.count), n);
    const Eigen::MatrixXd by_doubt = whole * spread.unwhitened(slopes.topRows(whitened));
    std::vector<double> residuals(problem.count);
    if (!problem.residuals(solution.x, residuals)) return result;
    const Eigen::VectorXd here =
        whole * spread.unwhitened(Eigen::Map<const Eigen::VectorXd>(residuals.data(), whitened));
    for (std::size_t i = 0; i < active_.size(); ++i)
        if (!prior_.unknowns[active_[i]].is_departure)
            result.prior_cost += std::pow(residuals[std::size_t(whitened) + i], 2) / 2;
    result.at_prior = here - by_doubt * Eigen::Map<const Eigen::VectorXd>(solution.x.data(), n);
    result.effect =
        by_doubt * prior.doubt().cwiseInverse().asDiagonal() * Eigen::MatrixXd(prior.root().matrixL());
    prior.spread_to_all(result, solution);
    result.densities = asked(result.mean, false).value_or(std::vector<double>{});
    if (result.densities.empty()) result.ending = Ending::failed;
    return result;
}

}  // namespace fogproof::fit
