// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The solver against certified values of the NIST Statistical Reference Datasets, nonlinear regression
// (National Institute of Standards and Technology, itl.nist.gov/div898/strd/nls): data, models, starting
// values, certified parameters and their certified standard deviations as published there.
#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "fit/least_squares.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// Relative; six digits of the certified eleven.
constexpr double kSixDigits = 1e-6;
// Relative; the certified deviations come from the same Jacobian, ours from differences.
constexpr double kDeviations = 1e-4;

using Numbers = std::vector<double>;

struct Certified {
    const char* name;
    Numbers x, y;
    std::function<double(double x, std::span<const double> b)> model;
    std::vector<Numbers> starts;
    Numbers values, deviations;
};

const Numbers kPressure{77.6,  114.9, 141.1, 190.8, 239.9, 289.0, 332.8,
                        378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0};
const Numbers kVolume{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02,
                      44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78};

Numbers tens(int count) {
    Numbers x;
    for (int i = 0; i < count; ++i) x.push_back(10.0 * i);
    return x;
}

std::vector<Certified> problems() {
    using Span = std::span<const double>;
    return {
        {"Misra1a",
         kPressure,
         kVolume,
         [](double x, Span b) { return b[0] * (1 - std::exp(-b[1] * x)); },
         {{500, 0.0001}, {250, 0.0005}},
         {2.3894212918E+02, 5.5015643181E-04},
         {2.7070075241E+00, 7.2668688436E-06}},
        {"Misra1b",
         kPressure,
         kVolume,
         [](double x, Span b) { return b[0] * (1 - 1 / std::pow(1 + b[1] * x / 2, 2)); },
         {{500, 0.0001}, {300, 0.0002}},
         {3.3799746163E+02, 3.9039091287E-04},
         {3.1643950207E+00, 4.2547321834E-06}},
        {"Misra1c",
         kPressure,
         kVolume,
         [](double x, Span b) { return b[0] * (1 - 1 / std::sqrt(1 + 2 * b[1] * x)); },
         {{500, 0.0001}, {600, 0.0002}},
         {6.3642725809E+02, 2.0813627256E-04},
         {4.6638326572E+00, 1.7728423155E-06}},
        {"DanWood",
         {1.309, 1.471, 1.490, 1.565, 1.611, 1.680},
         {2.138, 3.421, 3.597, 4.340, 4.882, 5.660},
         [](double x, Span b) { return b[0] * std::pow(x, b[1]); },
         {{1, 5}, {0.7, 4}},
         {7.6886226176E-01, 3.8604055871E+00},
         {1.8281973860E-02, 5.1726610913E-02}},
        {"BoxBOD",
         {1, 2, 3, 5, 7, 10},
         {109, 149, 149, 191, 213, 224},
         [](double x, Span b) { return b[0] * (1 - std::exp(-b[1] * x)); },
         {{100, 0.75}},
         {2.1380940889E+02, 5.4723748542E-01},
         {1.2354515176E+01, 1.0455993237E-01}},
        {"Rat42",
         {9, 14, 21, 28, 42, 57, 63, 70, 79},
         {8.930, 10.800, 18.590, 22.330, 39.350, 56.110, 61.730, 64.620, 67.080},
         [](double x, Span b) { return b[0] / (1 + std::exp(b[1] - b[2] * x)); },
         {{100, 1, 0.1}, {75, 2.5, 0.07}},
         {7.2462237576E+01, 2.6180768402E+00, 6.7359200066E-02},
         {1.7340283401E+00, 8.8295217536E-02, 3.4465663377E-03}},
        {"MGH09",
         {4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625},
         {0.1957, 0.1947, 0.1735, 0.1600, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246},
         [](double x, Span b) { return b[0] * (x * x + x * b[1]) / (x * x + x * b[2] + b[3]); },
         {{0.25, 0.39, 0.415, 0.39}},
         {1.9280693458E-01, 1.9128232873E-01, 1.2305650693E-01, 1.3606233068E-01},
         {1.1435312227E-02, 1.9633220911E-01, 8.0842031232E-02, 9.0025542308E-02}},
        {"MGH17",
         tens(33),
         {0.844, 0.908, 0.932, 0.936, 0.925, 0.908, 0.881, 0.850, 0.818, 0.784, 0.751,
          0.718, 0.685, 0.658, 0.628, 0.603, 0.580, 0.558, 0.538, 0.522, 0.506, 0.490,
          0.478, 0.467, 0.457, 0.448, 0.438, 0.431, 0.424, 0.420, 0.414, 0.411, 0.406},
         [](double x, Span b) { return b[0] + b[1] * std::exp(-x * b[3]) + b[2] * std::exp(-x * b[4]); },
         {{0.5, 1.5, -1, 0.01, 0.02}},
         {3.7541005211E-01, 1.9358469127E+00, -1.4646871366E+00, 1.2867534640E-02, 2.2122699662E-02},
         {2.0723153551E-03, 2.2031669222E-01, 2.2175707739E-01, 4.4861358114E-04, 8.9471996575E-04}},
        {"Eckerle4",
         {400,   405, 410,   415, 420,   425, 430,   435, 436.5, 438, 439.5, 441,
          442.5, 444, 445.5, 447, 448.5, 450, 451.5, 453, 454.5, 456, 457.5, 459,
          460.5, 462, 463.5, 465, 470,   475, 480,   485, 490,   495, 500},
         {0.0001575, 0.0001699, 0.0002350, 0.0003102, 0.0004917, 0.0008710, 0.0017418, 0.0046400, 0.0065895,
          0.0097302, 0.0149002, 0.0237310, 0.0401683, 0.0712559, 0.1264458, 0.2073413, 0.2902366, 0.3445623,
          0.3698049, 0.3668534, 0.3106727, 0.2078154, 0.1164354, 0.0616764, 0.0337200, 0.0194023, 0.0117831,
          0.0074357, 0.0022732, 0.0008800, 0.0004579, 0.0002345, 0.0001586, 0.0001143, 0.0000710},
         [](double x, Span b) { return b[0] / b[1] * std::exp(-0.5 * std::pow((x - b[2]) / b[1], 2)); },
         {{1.5, 5, 450}},
         {1.5543827178E+00, 4.0888321754E+00, 4.5154121844E+02},
         {1.5408051163E-02, 4.6803020753E-02, 4.6800518816E-02}},
    };
}

SquaresSolution solved(const Certified& certified, const Numbers& start) {
    SquaresProblem problem;
    problem.residuals = [&](std::span<const double> b, std::span<double> out) {
        for (std::size_t i = 0; i < out.size(); ++i)
            out[i] = certified.model(certified.x[i], b) - certified.y[i];
        return true;
    };
    problem.count = certified.x.size();
    problem.start = start;
    problem.most_steps = 500;
    problem.central = true;
    problem.tolerance = 1e-15;
    return least_squares(problem);
}

TEST(Nist, CertifiedParametersComeOutToSixDigits) {
    for (const auto& certified : problems())
        for (const auto& start : certified.starts) {
            const SquaresSolution solution = solved(certified, start);
            EXPECT_EQ(solution.ending, Ending::converged) << certified.name;
            ASSERT_EQ(solution.x.size(), certified.values.size());
            for (std::size_t i = 0; i < certified.values.size(); ++i)
                EXPECT_NEAR(solution.x[i] / certified.values[i], 1, kSixDigits)
                    << certified.name << " b" << i + 1 << " from " << start.front();
        }
}

TEST(Nist, AFlatPlateauIsNotTakenForAnAnswer) {
    // BoxBOD from its first start: the first step leads where b2 has no effect left.
    for (const auto& certified : problems()) {
        if (certified.name != std::string("BoxBOD")) continue;
        EXPECT_EQ(solved(certified, {1, 1}).ending, Ending::singular);
    }
}

TEST(Nist, CertifiedStandardDeviationsComeOutOfTheCovariance) {
    for (const auto& certified : problems()) {
        const SquaresSolution solution = solved(certified, certified.starts.back());
        const std::size_t n = certified.values.size();
        ASSERT_EQ(solution.covariance.size(), n * n) << certified.name;
        const double variance = 2 * solution.final_cost / double(certified.x.size() - n);
        for (std::size_t i = 0; i < n; ++i)
            EXPECT_NEAR(std::sqrt(variance * solution.covariance[i * n + i]) / certified.deviations[i], 1,
                        kDeviations)
                << certified.name << " b" << i + 1;
    }
}

TEST(LeastSquares, EachEndingIsToldApart) {
    SquaresProblem problem;
    problem.count = 2;
    problem.start = {3, 4};
    const auto ending = [&](auto residuals) {
        problem.residuals = residuals;
        return least_squares(problem).ending;
    };
    EXPECT_EQ(ending([](std::span<const double> x, std::span<double> out) {
                  out[0] = x[0] - 1;
                  out[1] = x[1] * x[1] - 2;
                  return true;
              }),
              Ending::converged);
    EXPECT_EQ(ending([](std::span<const double> x, std::span<double> out) {
                  out[0] = out[1] = x[0] + x[1];
                  return true;
              }),
              Ending::singular);
    EXPECT_EQ(ending([](std::span<const double>, std::span<double>) { return false; }), Ending::failed);
    problem.most_steps = 2;
    problem.start = {-1.2, 1};
    // Rosenbrock's valley, Computer Journal 3, 175 (1960), takes far more than two steps.
    EXPECT_EQ(ending([](std::span<const double> x, std::span<double> out) {
                  out[0] = 10 * (x[1] - x[0] * x[0]);
                  out[1] = 1 - x[0];
                  return true;
              }),
              Ending::out_of_steps);
}

TEST(LeastSquares, ABoundHoldsAgainstALowerCostBeyondIt) {
    SquaresProblem problem;
    problem.count = 1;
    problem.start = {0.5};
    problem.lowest = {0};
    problem.highest = {1};
    problem.residuals = [](std::span<const double> x, std::span<double> out) {
        EXPECT_LE(x[0], 1);
        out[0] = x[0] - 3;
        return true;
    };
    EXPECT_NEAR(least_squares(problem).x[0], 1, 1e-9);
}

// Two numbers of which readings know little but the sum, and a bound in the way of one: a step that is cut at
// the bound takes the sum along, unless the other number makes up for it.
TEST(LeastSquares, ABoundInAFlatValleyIsReachedAndTheRestFollows) {
    SquaresProblem problem;
    problem.count = 3;
    problem.start = {0, 3, 0};
    problem.lowest = {-9, -9, -9};
    problem.highest = {2, 9, 9};
    problem.tolerance = 1e-6;
    problem.most_steps = 25;
    problem.residuals = [](std::span<const double> x, std::span<double> out) {
        out[0] = 1000 * (x[0] + x[1] - 3 + 0.02 * x[0] * x[0]);
        out[1] = x[0] - 5;
        out[2] = x[2] - x[1];
        return true;
    };
    const SquaresSolution found = least_squares(problem);
    EXPECT_EQ(found.ending, Ending::converged);
    EXPECT_DOUBLE_EQ(found.x[0], 2);
    EXPECT_NEAR(found.x[1], 3 - 2 - 0.08, 1e-4);
    EXPECT_NEAR(found.x[2], found.x[1], 1e-4);
}

}  // namespace
}  // namespace fogproof::tests
