// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/warp_equations.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>

namespace fogproof::registration {
namespace {

// A keypoint so many squared deviations away counts a quarter. Judgement.
constexpr double kFarMatch = 9;
// Taper and lens are slight: so much by standard deviation, in the units of FrameWarp. Judgement.
constexpr double kTaper = 0.01, kLens = 0.004;
// So are blurs beside those that were found, by standard deviation. Judgement.
constexpr std::array<double, kBlurs> kBlurSpread{0.7, 1};

using Derivatives = Eigen::Matrix<double, 2, FrameWarp::kNumbers, Eigen::RowMajor>;

Derivatives derivatives(const FrameWarp& warp, const FramePlace& place) {
    const auto by = warp.derivatives(place);
    Derivatives rows;
    for (int i = 0; i < FrameWarp::kNumbers; ++i)
        rows(0, i) = by[0][std::size_t(i)], rows(1, i) = by[1][std::size_t(i)];
    return rows;
}

}  // namespace

WarpEquations::WarpEquations(const FrameWarp& warp, const KnownMatches& known, double pitch,
                             const Blurs& blurs)
    : warp_(warp),
      blurs_(blurs),
      normal_(Products::Zero()),
      hold_(Products::Zero()),
      right_(Unknowns::Zero()) {
    const auto is_slight = [this](int i, double value, double spread) {
        normal_(i, i) += 1 / (spread * spread), hold_(i, i) += 1 / (spread * spread);
        right_[i] += value / (spread * spread);
    };
    for (const auto& [i, spread] : {std::pair{6, kTaper}, {7, kTaper}, {8, kLens}})
        is_slight(i, warp.numbers[std::size_t(i)], spread);
    for (int i = 0; i < kBlurs; ++i)
        is_slight(FrameWarp::kNumbers + i, blurs[i], kBlurSpread[std::size_t(i)]);
    // Matches are good to some pixels each, and keypoints close by err together.
    const double doubt = known.doubt / pitch;
    for (const Match& match : known.matches) {
        const ScanPlace at = warp.at(match.frame);
        const Eigen::Vector2d off(at.x - match.scan.x / pitch, at.y - match.scan.y / pitch);
        const double far = off.squaredNorm() / (doubt * doubt * kFarMatch),
                     weight = 1 / (doubt * doubt * (1 + far) * (1 + far));
        add(match.frame, {Eigen::Matrix2d::Identity(), off, Eigen::Matrix2d::Identity()}, weight);
    }
}

void WarpEquations::add(const FramePlace& middle, const BlockPull& block, double weight) {
    const Derivatives by = derivatives(warp_, middle);
    constexpr int kWarp = FrameWarp::kNumbers;
    normal_.topLeftCorner<kWarp, kWarp>().noalias() += weight * by.transpose() * block.slopes * by;
    hold_.topLeftCorner<kWarp, kWarp>().noalias() += weight * by.transpose() * block.hold * by;
    right_.head<kWarp>().noalias() += weight * by.transpose() * block.pull;
}

void WarpEquations::add(const FramePlace& middle, const BlockPull& block, const BlurPull& blur,
                        double weight) {
    add(middle, block, weight);
    // More blur is a change of the negative, a step of the warp one of the scan: hence the signs.
    constexpr int kWarp = FrameWarp::kNumbers;
    const Eigen::Matrix<double, kWarp, kBlurs> across =
        weight * derivatives(warp_, middle).transpose() * blur.across;
    for (Products* products : {&normal_, &hold_}) {
        products->topRightCorner<kWarp, kBlurs>() -= across;
        products->bottomLeftCorner<kBlurs, kWarp>() -= across.transpose();
        products->bottomRightCorner<kBlurs, kBlurs>() += weight * blur.squares;
    }
    right_.tail<kBlurs>() -= weight * blur.pull;
}

std::optional<WarpEquations::Solved> WarpEquations::solved() const {
    const Eigen::LDLT<Products> steps(normal_), holds(hold_);
    const Unknowns step = steps.solve(right_);
    if (!steps.isPositive() || !holds.isPositive() || !step.allFinite()) return std::nullopt;
    constexpr int kWarp = FrameWarp::kNumbers;
    Solved solved{warp_, blurs_ - step.tail<kBlurs>(),
                  holds.solve(Products::Identity()).topLeftCorner<kWarp, kWarp>()};
    for (int i = 0; i < FrameWarp::kNumbers; ++i) solved.warp.numbers[std::size_t(i)] -= step[i];
    return solved;
}

double worst_doubt(const WarpEquations::Solved& solved, std::span<const FramePlace> places) {
    double worst = 0;
    for (const FramePlace& place : places) {
        const Derivatives by = derivatives(solved.warp, place);
        worst = std::max(worst, std::sqrt((by * solved.covariance * by.transpose()).trace()));
    }
    return worst;
}

double corner_doubt(const WarpEquations::Solved& solved, const FrameGrid& grid) {
    return worst_doubt(solved, frame_corners(grid.width, grid.height));
}

double farthest_corner_move(const FrameWarp& warp, const FrameWarp& other, const FrameGrid& grid) {
    double most = 0;
    for (const FramePlace& corner : frame_corners(grid.width, grid.height)) {
        const ScanPlace a = warp.at(corner), b = other.at(corner);
        most = std::max(most, std::hypot(a.x - b.x, a.y - b.y));
    }
    return most;
}

}  // namespace fogproof::registration
