// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/least_squares.hpp"

#include <ceres/ceres.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

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

class Differenced final : public ceres::CostFunction {
  public:
    explicit Differenced(const SquaresProblem& problem) : problem_(problem) {
        set_num_residuals(int(problem.count));
        mutable_parameter_block_sizes()->push_back(int(problem.start.size()));
    }

    bool Evaluate(double const* const* parameters, double* residuals, double** jacobians) const override {
        std::vector<double> x(parameters[0], parameters[0] + problem_.start.size());
        const std::span<double> out(residuals, problem_.count);
        if (!asked(x, out)) return false;
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

    bool asked(const std::vector<double>& x, std::span<double> out) const {
        return problem_.residuals(x, out) &&
               std::all_of(out.begin(), out.end(), [](double r) { return std::isfinite(r); });
    }

    bool derivatives(std::vector<double> x, std::span<const double> here, double* jacobian) const {
        const std::size_t n = x.size(), m = problem_.count;
        std::vector<double> there(m), back(m);
        for (std::size_t i = 0; i < n; ++i) {
            const double at = x[i];
            double step = problem_.step > 0 ? problem_.step : step_at(at);
            // Never across a bound.
            if (!problem_.highest.empty() && at + step > problem_.highest[i]) step = -step;
            x[i] = at + step;
            const double ahead = x[i] - at;
            bool two_sided = problem_.central;
            bool is_there = asked(x, there);
            if (is_there && two_sided) {
                x[i] = at - step;
                two_sided = asked(x, back);
            } else if (!is_there) {
                x[i] = at - step;
                if (!asked(x, there)) return false;
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
    // Columns of like length, so that the rank does not hang on units.
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

}  // namespace

SquaresSolution least_squares(const SquaresProblem& problem) {
    SquaresSolution solution;
    solution.x = problem.start;
    ceres::Problem::Options ownership;
    ownership.cost_function_ownership = ceres::DO_NOT_TAKE_OWNERSHIP;
    Differenced cost(problem);
    // Ceres would write its complaint to the terminal.
    std::vector<double> residuals(problem.count);
    const double* parameters[] = {solution.x.data()};
    if (!cost.Evaluate(parameters, residuals.data(), nullptr)) return solution;
    ceres::Problem ceres_problem(ownership);
    ceres_problem.AddResidualBlock(&cost, nullptr, solution.x.data());
    for (std::size_t i = 0; i < problem.lowest.size(); ++i) {
        ceres_problem.SetParameterLowerBound(solution.x.data(), int(i), problem.lowest[i]);
        ceres_problem.SetParameterUpperBound(solution.x.data(), int(i), problem.highest[i]);
    }
    ceres::Solver::Options options;
    options.linear_solver_type = ceres::DENSE_QR;
    options.logging_type = ceres::SILENT;
    options.num_threads = 1;
    options.max_num_iterations = problem.most_steps;
    options.function_tolerance = problem.tolerance;
    options.parameter_tolerance = std::min(1e-10, problem.tolerance);
    options.gradient_tolerance = 0.01 * problem.tolerance;
    options.use_nonmonotonic_steps = false;
    options.initial_trust_region_radius = problem.trust;
    options.max_trust_region_radius = 1e16;
    ceres::Solver::Summary summary;
    ceres::Solve(options, &ceres_problem, &summary);
    solution.steps = summary.num_successful_steps + summary.num_unsuccessful_steps;
    solution.initial_cost = summary.initial_cost;
    solution.final_cost = summary.final_cost;
    if (!summary.IsSolutionUsable()) return solution;
    Matrix jacobian(problem.count, problem.start.size());
    double* jacobians[] = {jacobian.data()};
    if (!cost.Evaluate(parameters, residuals.data(), jacobians)) return solution;
    solution.jacobian.assign(jacobian.data(), jacobian.data() + jacobian.size());
    solution.covariance = inverse_of_squares(jacobian);
    solution.ending = solution.covariance.empty()                      ? Ending::singular
                      : summary.termination_type == ceres::CONVERGENCE ? Ending::converged
                                                                       : Ending::out_of_steps;
    return solution;
}

}  // namespace fogproof::fit
