// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/handwork.hpp"

#include <Eigen/Dense>
#include <Eigen/SparseCholesky>
#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>
#include <utility>

#include "base/quantile.hpp"
#include "base/symmetric_system.hpp"
#include "reading/light_density.hpp"
#include "reading/tone_spline.hpp"

namespace fogproof::reading {
namespace {

// Nodes along the longer side of the frame: while the curve is sought with the light, and afterwards.
constexpr int kNodesAlong = 24, kFinerAlong = 64;
constexpr double kBeyond = 0.6;  // density over the paper that the curve goes on for beyond its tones
// All judgement, tried on prints whose handwork is known: the price of a curve that bends, of handwork that
// changes from node to node, of handwork at all; what counts as small narrows from round to round.
constexpr double kBend = 0.7, kChange = 0.2, kLight = 0.1;
constexpr double kSmallFirst = 0.15, kSmallLast = 0.02, kNarrower = 0.8;
constexpr int kRounds = 25, kFinerRounds = 10;
// Squares close by err together: all of them count as so many that do not.
constexpr double kIndependent = 160;
constexpr double kLeastScatter = 0.006, kFarOff = 3;
constexpr double kMostLight = 0.7, kMostStep = 0.1;  // log10
constexpr double kHolds = 1e9;                       // weight of a number that has to be what it is
constexpr int kCurve = ToneSpline::kNumbers;

double scatter_of(std::vector<double> misses) {
    for (double& miss : misses) miss = std::abs(miss);
    return std::max(kLeastScatter, kMadToSigma * median(std::move(misses)));
}

std::pair<double, double> ends_of_curve(std::span<const ToneSquare> squares) {
    const auto [low, high] = std::ranges::minmax_element(squares, {}, &ToneSquare::over_paper);
    return {low->over_paper - kBeyond, high->over_paper + kBeyond};
}

ToneSpline first_curve(std::span<const ToneSquare> squares) {
    const auto [low, high] = ends_of_curve(squares);
    ToneSpline curve(low, high);
    Eigen::MatrixXd normal = kBend * curve.bends() + 1e-6 * Eigen::MatrixXd::Identity(kCurve, kCurve);
    Eigen::VectorXd right = Eigen::VectorXd::Zero(kCurve);
    for (const ToneSquare& square : squares) {
        const auto at = curve.at(square.over_paper);
        for (int i = 0; i < 4; ++i) {
            right[at.first + i] += at.weight[std::size_t(i)] * square.density;
            for (int j = 0; j < 4; ++j)
                normal(at.first + i, at.first + j) += at.weight[std::size_t(i)] * at.weight[std::size_t(j)];
        }
    }
    curve.numbers = solved(normal, right);
    return curve;
}

class HandworkSearch {
  public:
    HandworkSearch(std::span<const ToneSquare> squares, int columns, int rows, const FalloffKnown& known)
        : squares_(squares), columns_(columns), rows_(rows), known_(known), curve_(first_curve(squares)) {
        work_.falloff = known.usual;
        work_.misses.resize(squares.size());
        on_curve_.resize(squares.size());
        lay(LightGrid::over(columns, rows, kNodesAlong));
    }

    Handwork found() {
        double small = kSmallFirst;
        for (int round = 0; round < kRounds; ++round, small = std::max(kSmallLast, kNarrower * small))
            move_all(small);
        LightGrid finer = LightGrid::over(columns_, rows_, kFinerAlong);
        for (int row = 0; row < finer.rows; ++row)
            for (int column = 0; column < finer.columns; ++column)
                finer.light[std::size_t(row) * std::size_t(finer.columns) + std::size_t(column)] =
                    work_.grid.at(column * finer.pitch, row * finer.pitch);
        lay(std::move(finer));
        for (int round = 0; round < kFinerRounds; ++round) move_light();
        look();
        for (std::size_t i = 0; i < squares_.size(); ++i)
            work_.moved.push_back({weight(i), -curve_.slope(on_curve_[i]), on_curve_[i].first,
                                   on_curve_[i].weight,
                                   curve_.slope(on_curve_[i]) * squares_[i].squared_radius});
        std::tie(work_.thinnest, work_.densest) = ends_of_curve(squares_);
        return std::move(work_);
    }

  private:
    void lay(LightGrid grid) {
        work_.grid = std::move(grid);
        places_.clear();
        for (const ToneSquare& square : squares_)
            places_.push_back(work_.grid.between(square.column + 0.5, square.row + 0.5));
    }

    void look() {
        for (std::size_t i = 0; i < squares_.size(); ++i) {
            const ToneSquare& square = squares_[i];
            double light = 0;
            for (std::size_t k = 0; k < 4; ++k)
                light += places_[i].weight[k] * work_.grid.light[std::size_t(places_[i].node[k])];
            on_curve_[i] = curve_.at(square.over_paper + work_.falloff * square.squared_radius - light);
            work_.misses[i] = square.density - curve_.density(on_curve_[i]);
        }
        work_.scatter = scatter_of(work_.misses);
    }

    // What lies far off the curve hardly pulls: dust, an edge.
    [[nodiscard]] double weight(std::size_t i) const {
        const double far = work_.misses[i] / (kFarOff * work_.scatter),
                     trust = 1 / ((1 + far * far) * (1 + far * far));
        return trust * kIndependent / double(squares_.size()) / (work_.scatter * work_.scatter);
    }

    // One step of Gauss and Newton for curve, falloff and light at once: few nodes, a full matrix.
    void move_all(double small) {
        look();
        const int first = kCurve + 1, count = first + int(work_.grid.light.size());
        Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(count, count);
        Eigen::VectorXd right = Eigen::VectorXd::Zero(count);
        for (std::size_t i = 0; i < squares_.size(); ++i) {
            const auto& at = on_curve_[i];
            const double pull = weight(i), slope = curve_.slope(at);
            std::array<int, 9> index{};
            std::array<double, 9> by{};
            for (std::size_t k = 0; k < 4; ++k) {
                index[k] = at.first + int(k), by[k] = at.weight[k];
                index[k + 5] = first + places_[i].node[k], by[k + 5] = -slope * places_[i].weight[k];
            }
            index[4] = kCurve, by[4] = slope * squares_[i].squared_radius;
            for (std::size_t a = 0; a < 9; ++a) {
                right[index[a]] += pull * by[a] * work_.misses[i];
                for (std::size_t b = 0; b < 9; ++b) normal(index[a], index[b]) += pull * by[a] * by[b];
            }
        }
        const Eigen::MatrixXd bends = kBend * curve_.bends();
        normal.topLeftCorner(kCurve, kCurve) += bends;
        normal.diagonal().head(kCurve).array() += 1e-6;
        right.head(kCurve) -= bends * curve_.numbers;
        const double falloff_holds = 1 / (known_.doubt * known_.doubt);
        normal(kCurve, kCurve) += falloff_holds;
        right[kCurve] -= (work_.falloff - known_.usual) * falloff_holds;
        add_springs(
            work_.grid, {kLight, kChange, small},
            [&](int a, int b, double value) { normal(first + a, first + b) += value; },
            [&](int a, double value) { right[first + a] += value; });
        Eigen::VectorXd step = solved_positive(normal, right);
        // At an end of its range the falloff stays there, and curve and light move as that asks. Otherwise
        // they would make up for falloff that is not taken, and never come to rest.
        const double wanted = work_.falloff + step[kCurve],
                     taken = std::clamp(wanted, kLeastFalloff, kMostFalloff);
        if (taken != wanted) {
            normal(kCurve, kCurve) += kHolds;
            right[kCurve] += kHolds * (taken - work_.falloff);
            step = solved_positive(normal, right);
        }
        curve_.numbers += step.head(kCurve);
        work_.falloff = taken;
        move(step.tail(count - first));
    }

    // The same for the light alone, on many nodes: a sparse matrix. A change is spread over more nodes and
    // costs less at each.
    void move_light() {
        look();
        const int count = int(work_.grid.light.size());
        constexpr double kCloser = double(kNodesAlong) / kFinerAlong;
        std::vector<Eigen::Triplet<double>> normal;
        Eigen::VectorXd right = Eigen::VectorXd::Zero(count);
        for (std::size_t i = 0; i < squares_.size(); ++i) {
            const double pull = weight(i), slope = curve_.slope(on_curve_[i]);
            const auto& [node, share] = places_[i];
            for (std::size_t a = 0; a < 4; ++a) {
                right[node[a]] -= pull * slope * share[a] * work_.misses[i];
                for (std::size_t b = 0; b < 4; ++b)
                    normal.emplace_back(node[a], node[b], pull * slope * slope * share[a] * share[b]);
            }
        }
        add_springs(
            work_.grid, {kLight * kCloser * kCloser, kChange * kCloser, kSmallLast},
            [&](int a, int b, double value) { normal.emplace_back(a, b, value); },
            [&](int a, double value) { right[a] += value; });
        Eigen::SparseMatrix<double> matrix(count, count);
        matrix.setFromTriplets(normal.begin(), normal.end());
        move(Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>>(matrix).solve(right));
    }

    void move(const Eigen::VectorXd& step) {
        for (std::size_t i = 0; i < work_.grid.light.size(); ++i) {
            double& light = work_.grid.light[i];
            light = std::clamp(light + std::clamp(step[Eigen::Index(i)], -kMostStep, kMostStep), -kMostLight,
                               kMostLight);
        }
    }

    std::span<const ToneSquare> squares_;
    int columns_, rows_;
    FalloffKnown known_;
    ToneSpline curve_;
    Handwork work_;
    std::vector<LightGrid::Between> places_;
    std::vector<ToneSpline::At> on_curve_;
};

}  // namespace

double Handwork::told_apart(std::span<const double> light) const {
    const int count = kCurve + 1;
    Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(count, count);
    Eigen::VectorXd along = Eigen::VectorXd::Zero(count);
    normal.topLeftCorner(kCurve, kCurve) = kBend * ToneSpline(thinnest, densest).bends();
    normal.diagonal().array() += 1e-6;
    normal(kCurve, kCurve) += 1 / (kUsualFalloff.doubt * kUsualFalloff.doubt);
    double all = 0, lit = 0;
    for (std::size_t i = 0; i < moved.size(); ++i) {
        const Moved& square = moved[i];
        Eigen::VectorXd by = Eigen::VectorXd::Zero(count);
        for (int k = 0; k < 4; ++k) by[square.first + k] = square.by_curve[std::size_t(k)];
        by[kCurve] = square.by_falloff;
        normal += square.weight * by * by.transpose();
        if (light[i] == 0) continue;
        const double density = square.by_light * light[i];
        along += square.weight * density * by;
        all += square.weight * density * density, lit += square.weight;
    }
    if (!(lit > 0)) return 0;
    const Eigen::VectorXd otherwise = solved_positive(normal, along);
    return std::sqrt(std::max(0.0, all - along.dot(otherwise)) / lit);
}

Handwork handwork_on(std::span<const ToneSquare> squares, int columns, int rows, const FalloffKnown& known) {
    return HandworkSearch(squares, columns, rows, known).found();
}

}  // namespace fogproof::reading
