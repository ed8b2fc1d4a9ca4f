// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The solver on problems of the NIST Statistical Reference Datasets, nonlinear regression (StRD, National
// Institute of Standards and Technology): data, first and second starting values, certified parameters.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <ostream>
#include <string>
#include <vector>

#include "fogproof/calibrate/least_squares.hpp"

using namespace fogproof;

namespace {

using Parameters = std::span<const double>;

struct Problem {
    std::string name;
    std::function<double(double x, Parameters b)> model;
    std::vector<double> x, y;
    std::vector<std::vector<double>> starts;
    std::vector<double> certified;
    friend std::ostream& operator<<(std::ostream& out, const Problem& problem) { return out << problem.name; }
};

const std::vector<double> kMisraX{77.6,  114.9, 141.1, 190.8, 239.9, 289.0, 332.8,
                                  378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0};
const std::vector<double> kMisraY{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02,
                                  44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78};

std::vector<Problem> problems() {
    return {
        {"Misra1a",
         [](double x, Parameters b) { return b[0] * (1 - std::exp(-b[1] * x)); },
         kMisraX,
         kMisraY,
         {{500, 1e-4}, {250, 5e-4}},
         {2.3894212918e+02, 5.5015643181e-04}},
        {"Misra1b",
         [](double x, Parameters b) { return b[0] * (1 - 1 / std::pow(1 + b[1] * x / 2, 2)); },
         kMisraX,
         kMisraY,
         {{500, 1e-4}, {300, 2e-4}},
         {3.3799746163e+02, 3.9039091287e-04}},
        {"DanWood",
         [](double x, Parameters b) { return b[0] * std::pow(x, b[1]); },
         {1.309, 1.471, 1.490, 1.565, 1.611, 1.680},
         {2.138, 3.421, 3.597, 4.340, 4.882, 5.660},
         {{1, 5}, {0.7, 4}},
         {7.6886226176e-01, 3.8604055871e+00}},
        {"BoxBOD",
         [](double x, Parameters b) { return b[0] * (1 - std::exp(-b[1] * x)); },
         {1, 2, 3, 5, 7, 10},
         {109, 149, 149, 191, 213, 224},
         {{100, 0.75}},
         {2.1380940889e+02, 5.4723748542e-01}},
        {"Rat42",
         [](double x, Parameters b) { return b[0] / (1 + std::exp(b[1] - b[2] * x)); },
         {9, 14, 21, 28, 42, 57, 63, 70, 79},
         {8.93, 10.80, 18.59, 22.33, 39.35, 56.11, 61.73, 64.62, 67.08},
         {{100, 1, 0.1}, {75, 2.5, 0.07}},
         {7.2462237576e+01, 2.6180768402e+00, 6.7359200066e-02}},
        {"Rat43",
         [](double x, Parameters b) { return b[0] / std::pow(1 + std::exp(b[1] - b[2] * x), 1 / b[3]); },
         {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15},
         {16.08, 33.83, 65.80, 97.20, 191.55, 326.20, 386.87, 520.53, 590.03, 651.92, 724.93, 699.56, 689.96,
          637.56, 717.41},
         {{700, 5, 0.75, 1.3}},
         {6.9964151270e+02, 5.2771253025e+00, 7.5962938329e-01, 1.2792483859e+00}},
        {"MGH09",
         [](double x, Parameters b) { return b[0] * (x * x + x * b[1]) / (x * x + x * b[2] + b[3]); },
         {4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625},
         {0.1957, 0.1947, 0.1735, 0.1600, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246},
         {{0.25, 0.39, 0.415, 0.39}},
         {1.9280693458e-01, 1.9128232873e-01, 1.2305650693e-01, 1.3606233068e-01}},
        {"MGH10",
         [](double x, Parameters b) { return b[0] * std::exp(b[1] / (x + b[2])); },
         {50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 115, 120, 125},
         {34780, 28610, 23650, 19630, 16370, 13720, 11540, 9744, 8261, 7030, 6005, 5147, 4427, 3820, 3307,
          2872},
         {{0.02, 4000, 250}},
         {5.6096364710e-03, 6.1813463463e+03, 3.4522363462e+02}},
    };
}

class Nist : public testing::TestWithParam<Problem> {};

}  // namespace

TEST_P(Nist, CertifiedParametersAreFoundToSixDigits) {
    const Problem& problem = GetParam();
    constexpr double kSixDigits = 1e-6;
    for (const auto& start : problem.starts) {
        SquaresProblem squares;
        squares.residuals = [&](Parameters b, std::span<double> residuals) {
            for (std::size_t i = 0; i < problem.x.size(); ++i)
                residuals[i] = problem.model(problem.x[i], b) - problem.y[i];
            return std::ranges::all_of(residuals, [](double r) { return std::isfinite(r); });
        };
        squares.count = problem.x.size();
        squares.start = start;
        squares.most_steps = 3000;
        squares.central = true;
        squares.tolerance = 1e-15;
        const SquaresSolution solution = least_squares(squares);
        ASSERT_TRUE(solution.usable());
        for (std::size_t i = 0; i < start.size(); ++i)
            EXPECT_NEAR(solution.x[i] / problem.certified[i], 1, kSixDigits) << "b" << i + 1;
    }
}

INSTANTIATE_TEST_SUITE_P(Strd, Nist, testing::ValuesIn(problems()),
                         [](const auto& instance) { return instance.param.name; });
