// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/least_squares.hpp"

#include <ceres/ceres.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "fit/boxed_minimum.hpp"
#include "system/threads.hpp"

namespace fogproof::fit {

std::string solver_library() {
    return "Ceres " CERES_VERSION_STRING;
}

namespace {

using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

// Forward differences lose half the digits of a double, central ones a third.
constexpr double kForwardStep = 1e-7, kCentralStep = 6e-6;
// Parameters that are nil are stepped as if they were this large.
constexpr double kLeastSize = 1e-2;
// Derivatives that one thread works out at a time.
constexpr std::size_t kColumns = 4;

class Differenced final : public ceres::CostFunction {
  public:
    explicit Differenced(const SquaresProblem& problem) : problem_(problem) {
        set_num_residuals(int(problem.count));
        mutable_parameter_block_sizes()->push_back(int(problem.start.size()));
    }

    bool Evaluate(double const* const* parameters, double* residuals, double** jacobians) const override {
        std::vector<double> x(parameters[0], parameters[0] + problem_.start.size());
        const std::span<double> out(residuals, problem_.count);
        if (!asked(problem_.residuals, x, out)) return false;
        if (!jacobians || !jacobians[0]) return true;
        // The solver ends where it last asked for derivatives, and they are all that takes long.
        if (x == last_x_) {
            std::ranges::copy(last_, jacobians[0]);
            return true;
        }
        last_x_.clear();
        if (!derivatives(x, out, jacobians[0])) return false;
        last_.assign(jacobians[0], jacobians[0] + x.size() * problem_.count);
        last_x_ = x;
        return true;
    }

  private:
    [[nodiscard]] double step_at(double x) const {
        const double size = std::abs(x) > 0 ? std::abs(x) : kLeastSize;
        return size * (problem_.central ? kCentralStep : kForwardStep);
    }

    static bool asked(const auto& residuals, const std::vector<double>& x, std::span<double> out) {
        return residuals(x, out) &&
               std::all_of(out.begin(), out.end(), [](double r) { return std::isfinite(r); });
    }

    bool derivatives(const std::vector<double>& x, std::span<const double> here, double* jacobian) const {
        const std::size_t bands = (x.size() + kColumns - 1) / kColumns;
        std::vector<char> is_done(bands, false);
        in_parallel(
            bands,
            [&](std::size_t band) {
                const std::size_t last = std::min(x.size(), (band + 1) * kColumns);
                is_done[band] = columns(band * kColumns, last, x, here, jacobian);
            },
            problem_.beside ? 0 : 1);
        return std::ranges::all_of(is_done, [](char is) { return is; });
    }

    bool columns(std::size_t first, std::size_t last, std::vector<double> x, std::span<const double> here,
                 double* jacobian) const {
        const auto& residuals = problem_.beside ? problem_.beside : problem_.residuals;
        const std::size_t n = x.size(), m = problem_.count;
        std::vector<double> there(m), back(m);
        for (std::size_t i = first; i < last; ++i) {
            const double at = x[i];
            double step = problem_.step > 0 ? problem_.step : step_at(at);
            // Never across a bound.
            if (!problem_.highest.empty() && at + step > problem_.highest[i]) step = -step;
            x[i] = at + step;
            const double ahead = x[i] - at;
            bool two_sided = problem_.central;
            bool is_there = asked(residuals, x, there);
            if (is_there && two_sided) {
                x[i] = at - step;
                two_sided = asked(residuals, x, back);
            } else if (!is_there) {
                x[i] = at - step;
                if (!asked(residuals, x, there)) return false;
                two_sided = false;
            }
            const double width = two_sided ? ahead + (at - x[i]) : is_there ? ahead : x[i] - at;
            for (std::size_t r = 0; r < m; ++r)
                jacobian[r * n + i] = (there[r] - (two_sided ? back[r] : here[r])) / width;
            x[i] = at;
        }
        return true;
    }

    const SquaresProblem& problem_;
    mutable std::vector<double> last_x_, last_;
};

std::vector<double> inverse_of_squares(const Matrix& jacobian) {
    // Columns of like length, so that the rank does not depend on units.
    const Eigen::VectorXd size = jacobian.colwise().norm().cwiseMax(1e-300);
    const Matrix scaled = jacobian * size.cwiseInverse().asDiagonal();
    const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(scaled);
    if (qr.rank() < jacobian.cols()) return {};
    const auto n = jacobian.cols();
    const Eigen::MatrixXd upper = qr.matrixR().topLeftCorner(n, n).triangularView<Eigen::Upper>();
    const Eigen::MatrixXd inverse =
        upper.triangularView<Eigen::Upper>().solve(Eigen::MatrixXd::Identity(n, n));
    const Eigen::MatrixXd rows = size.cwiseInverse().asDiagonal() * (qr.colsPermutation() * inverse);
    const Matrix covariance = rows * rows.transpose();
    return {covariance.data(), covariance.data() + n * n};
}

// Ceres shortens a step that a bound stands in the way of, for all numbers alike, and then creeps or ends too
// early. So numbers that would go beyond their bounds are put there and held, as long as the slopes say so.
class BoundedSearch final : public ceres::IterationCallback {
  public:
    explicit BoundedSearch(const SquaresProblem& problem)
        : problem_(problem), cost_(problem), x_(problem.start), best_x_(x_) {
        options_.linear_solver_type = ceres::DENSE_QR;
        options_.logging_type = ceres::SILENT;
        options_.num_threads = 1;
        options_.function_tolerance = problem.tolerance;
        options_.parameter_tolerance = std::min(1e-10, problem.tolerance);
        options_.gradient_tolerance = 0.01 * problem.tolerance;
        options_.use_nonmonotonic_steps = false;
        options_.line_search_interpolation_type = ceres::QUADRATIC;  // asks for no slopes where a step fails
        options_.initial_trust_region_radius = problem.trust;
        options_.max_trust_region_radius = 1e16;
        options_.update_state_every_iteration = true;
        options_.callbacks = {this};
    }

    [[nodiscard]] SquaresSolution solution() {
        SquaresSolution solution;
        solution.x = x_;
        // Ceres would write its complaint to the terminal.
        if (!differentiated()) return solution;
        best_ = cost();
        if (problem_.least_gain && best_ > 0)
            options_.function_tolerance = std::min(problem_.tolerance, *problem_.least_gain / best_);
        held_ = pushed();
        Run run;
        while (solution.steps < problem_.most_steps) {
            run = gone(problem_.most_steps - solution.steps);
            solution.steps += run.steps;
            if (!run.is_usable || !differentiated()) return solution;
            if (cost() <= best_) {
                best_ = cost();
                best_x_ = x_;
            } else if (run.has_converged) {
                // The slopes did not hold as far as the bounds: back, and on in small steps.
                x_ = best_x_;
                may_put_ = false;
                if (!differentiated()) return solution;
            }
            if (to_put_) {
                put(*to_put_);
                continue;
            }
            const std::vector<int> before = std::exchange(held_, pushed());
            if (held_ == before && run.has_converged) break;
        }
        if (cost() > best_) x_ = best_x_;
        if (!differentiated()) return solution;
        solution.x = x_;
        solution.final_cost = cost();
        solution.jacobian.assign(jacobian_.data(), jacobian_.data() + jacobian_.size());
        solution.covariance = inverse_of_squares(jacobian_);
        solution.ending = solution.covariance.empty() ? Ending::singular
                          : run.has_converged         ? Ending::converged
                                                      : Ending::out_of_steps;
        return solution;
    }

    // A run of Ceres ends once a number that was free has come to a bound, and where a step went less well
    // than the slopes had promised while they say that a number is to be put at its bound.
    ceres::CallbackReturnType operator()(const ceres::IterationSummary& step) override {
        const bool is_cut =
            step.iteration > 0 && step.step_is_successful && step.trust_region_radius < radius_;
        radius_ = step.trust_region_radius;
        if (may_put_ && is_cut && differentiated()) {
            to_put_ = within_bounds();
            if (to_put_->held != held_) return ceres::SOLVER_TERMINATE_SUCCESSFULLY;
            to_put_.reset();
        }
        const std::vector<bool> now = at_bounds();
        for (std::size_t i = 0; i < now.size(); ++i)
            if (now[i] && !at_bounds_[i]) return ceres::SOLVER_TERMINATE_SUCCESSFULLY;
        return ceres::SOLVER_CONTINUE;
    }

  private:
    struct Run {
        int steps = 0;
        bool is_usable = true, has_converged = false;
    };

    bool differentiated() {
        residuals_.resize(Eigen::Index(problem_.count));
        jacobian_.resize(Eigen::Index(problem_.count), Eigen::Index(x_.size()));
        const double* parameters[] = {x_.data()};
        double* jacobians[] = {jacobian_.data()};
        return cost_.Evaluate(parameters, residuals_.data(), jacobians);
    }

    [[nodiscard]] double cost() const { return residuals_.squaredNorm() / 2; }

    [[nodiscard]] std::optional<double> cost_at(const std::vector<double>& x) const {
        Eigen::VectorXd residuals(Eigen::Index(problem_.count));
        const double* parameters[] = {x.data()};
        if (!cost_.Evaluate(parameters, residuals.data(), nullptr)) return std::nullopt;
        return residuals.squaredNorm() / 2;
    }

    // With what is held held.
    Run gone(int most_steps) {
        ceres::Problem::Options ownership;
        ownership.cost_function_ownership = ceres::DO_NOT_TAKE_OWNERSHIP;
        ceres::Problem free(ownership);
        free.AddResidualBlock(&cost_, nullptr, x_.data());
        for (std::size_t i = 0; i < problem_.lowest.size(); ++i) {
            free.SetParameterLowerBound(x_.data(), int(i), problem_.lowest[i]);
            free.SetParameterUpperBound(x_.data(), int(i), problem_.highest[i]);
        }
        if (held_.size() == x_.size())
            free.SetParameterBlockConstant(x_.data());
        else if (!held_.empty())
            free.SetManifold(x_.data(), new ceres::SubsetManifold(int(x_.size()), held_));
        options_.max_num_iterations = most_steps;
        at_bounds_ = at_bounds();
        to_put_.reset();
        ceres::Solver::Summary summary;
        ceres::Solve(options_, &free, &summary);
        return {std::max(summary.num_successful_steps + summary.num_unsuccessful_steps, 1),
                summary.IsSolutionUsable(), summary.termination_type == ceres::CONVERGENCE};
    }

    [[nodiscard]] std::vector<bool> at_bounds() const {
        std::vector<bool> at(problem_.lowest.size());
        for (std::size_t i = 0; i < at.size(); ++i)
            at[i] = x_[i] <= problem_.lowest[i] || x_[i] >= problem_.highest[i];
        return at;
    }

    // Numbers at a bound beyond which the cost falls.
    [[nodiscard]] std::vector<int> pushed() const {
        const Eigen::VectorXd slope = jacobian_.transpose() * residuals_;
        std::vector<int> pushed;
        for (std::size_t i = 0; i < problem_.lowest.size(); ++i) {
            const double up = slope[Eigen::Index(i)];
            if ((x_[i] <= problem_.lowest[i] && up > 0) || (x_[i] >= problem_.highest[i] && up < 0))
                pushed.push_back(int(i));
        }
        return pushed;
    }

    // Where the cost is least within the bounds if it goes on as the slopes say, from where it stands.
    [[nodiscard]] BoxedMinimum within_bounds() const {
        const auto n = Eigen::Index(x_.size());
        const Eigen::Map<const Eigen::VectorXd> x(x_.data(), n), lowest(problem_.lowest.data(), n),
            highest(problem_.highest.data(), n);
        return boxed_minimum(jacobian_.transpose() * jacobian_, jacobian_.transpose() * residuals_,
                             lowest - x, highest - x);
    }

    // All numbers there if the slopes hold so far, else only those that a bound holds: the others follow.
    void put(const BoxedMinimum& least) {
        std::vector<double> there = x_, at_bounds_only = x_;
        for (std::size_t i = 0; i < there.size(); ++i) there[i] += least.at[Eigen::Index(i)];
        for (const int i : least.held) {
            const auto at = std::size_t(i);
            const bool is_low = least.at[i] < 0 || x_[at] <= problem_.lowest[at];
            there[at] = at_bounds_only[at] = is_low ? problem_.lowest[at] : problem_.highest[at];
        }
        if (const auto cost = cost_at(there); cost && *cost < best_)
            x_ = std::move(there);
        else if (cost_at(at_bounds_only))
            x_ = std::move(at_bounds_only);
        else
            may_put_ = false;
        if (may_put_) held_ = least.held;
    }

    const SquaresProblem& problem_;
    Differenced cost_;
    ceres::Solver::Options options_;
    std::vector<double> x_, best_x_;
    double best_ = 0, radius_ = 0;
    std::vector<int> held_;        // at their bounds
    std::vector<bool> at_bounds_;  // when the run began
    bool may_put_ = !problem_.lowest.empty();
    std::optional<BoxedMinimum> to_put_;
    Eigen::VectorXd residuals_;
    Matrix jacobian_;
};

}  // namespace

SquaresSolution least_squares(const SquaresProblem& problem) {
    return BoundedSearch(problem).solution();
}

}  // namespace fogproof::fit
