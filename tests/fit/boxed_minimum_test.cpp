// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Against every way in which bounds can hold numbers, tried one after the other.
#include "fit/boxed_minimum.hpp"

#include <gtest/gtest.h>

#include <Eigen/Cholesky>
#include <random>

namespace fogproof::fit {
namespace {

constexpr int kNumbers = 6;

struct Box {
    Eigen::MatrixXd curvature;
    Eigen::VectorXd slope, lowest, highest;

    [[nodiscard]] double cost(const Eigen::VectorXd& x) const {
        return x.dot(curvature * x) / 2 + slope.dot(x);
    }
};

Box drawn_box(std::mt19937& dice) {
    std::normal_distribution<double> normal;
    std::uniform_real_distribution<double> room(0, 1.5);
    Eigen::MatrixXd root(kNumbers, kNumbers);
    for (double& cell : root.reshaped()) cell = normal(dice);
    Box box;
    box.curvature = root.transpose() * root + 0.05 * Eigen::MatrixXd::Identity(kNumbers, kNumbers);
    box.slope.resize(kNumbers);
    box.lowest.resize(kNumbers);
    box.highest.resize(kNumbers);
    for (int i = 0; i < kNumbers; ++i) {
        box.slope[i] = 3 * normal(dice);
        // Some stand at a bound.
        box.lowest[i] = -std::max(0.0, room(dice) - 0.2);
        box.highest[i] = std::max(0.0, room(dice) - 0.2);
    }
    return box;
}

double least_of_all_ways(const Box& box) {
    double least = std::numeric_limits<double>::infinity();
    for (int way = 0; way < 729; ++way) {  // 3^6: low, high or free
        Eigen::VectorXd x(kNumbers);
        std::vector<Eigen::Index> free, held;
        for (int i = 0, left = way; i < kNumbers; ++i, left /= 3) {
            (left % 3 == 2 ? free : held).push_back(i);
            if (left % 3 != 2) x[i] = left % 3 == 0 ? box.lowest[i] : box.highest[i];
        }
        if (!free.empty()) {
            Eigen::VectorXd rest = box.slope(free);
            if (!held.empty()) rest += box.curvature(free, held) * x(held);
            x(free) = -box.curvature(free, free).llt().solve(rest);
        }
        const bool is_within = (x - box.lowest).minCoeff() > -1e-12 && (box.highest - x).minCoeff() > -1e-12;
        if (is_within) least = std::min(least, box.cost(x));
    }
    return least;
}

TEST(BoxedMinimum, IsTheLeastOfAllWaysToHoldNumbers) {
    std::mt19937 dice(1);
    int held = 0;
    for (int i = 0; i < 200; ++i) {
        const Box box = drawn_box(dice);
        const BoxedMinimum found = boxed_minimum(box.curvature, box.slope, box.lowest, box.highest);
        EXPECT_GE((found.at - box.lowest).minCoeff(), -1e-12);
        EXPECT_GE((box.highest - found.at).minCoeff(), -1e-12);
        EXPECT_NEAR(box.cost(found.at), least_of_all_ways(box), 1e-9) << i;
        held += int(found.held.size());
    }
    // The draw is one in which bounds matter.
    EXPECT_GT(held, 200);
}

TEST(BoxedMinimum, HoldsOnlyWhatWouldGoFarther) {
    const Eigen::Vector2d lowest(-1, -1), highest(1, 1);
    const Eigen::Matrix2d curvature = Eigen::Matrix2d::Identity();
    const BoxedMinimum found = boxed_minimum(curvature, Eigen::Vector2d(-3, 0.5), lowest, highest);
    EXPECT_EQ(found.held, std::vector<int>{0});
    EXPECT_DOUBLE_EQ(found.at[0], 1);
    EXPECT_DOUBLE_EQ(found.at[1], -0.5);
}

}  // namespace
}  // namespace fogproof::fit
