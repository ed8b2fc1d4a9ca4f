// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/cell_lights.hpp"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>

namespace fogproof::scan {

void CellLights::gather(const CellRow& row, const Cell& column) {
    light_.clear();
    share_.clear();
    sorted_ = false;
    double area = 0;
    for (std::size_t i = 0; i < row.lines.size(); ++i) {
        const std::uint16_t* const line = row.lines[i];
        const auto add = [&](int x, double share) {
            light_.push_back(line[x]);
            share_.push_back(float(share));
            area += share;
        };
        if (column.lead_share > 0) add(column.lead, row.shares[i] * column.lead_share);
        for (int x = column.begin; x < column.end; ++x) add(x, row.shares[i]);
        if (column.tail_share > 0) add(column.tail, row.shares[i] * column.tail_share);
    }
    const auto [darkest, brightest] = std::ranges::minmax(light_);
    span_ = double(brightest - darkest) / kParts;
    double first = 0, second = 0, third = 0;
    for (std::size_t i = 0; i < light_.size(); ++i) {
        const double from_darkest = double(light_[i] - darkest) / kParts, share = share_[i] / area;
        first += share * from_darkest;
        second += share * from_darkest * from_darkest;
        third += share * from_darkest * from_darkest * from_darkest;
    }
    mean_ = double(darkest) / kParts + first;
    const double variance = std::max(0.0, second - first * first);
    deviation_ = std::sqrt(variance);
    skew_ =
        variance > 0 ? (third - 3 * first * second + 2 * first * first * first) / (variance * deviation_) : 0;
}

const std::vector<SharedLight>& CellLights::each() {
    if (sorted_) return each_;
    sorted_ = true;
    order_.clear();
    for (std::size_t i = 0; i < light_.size(); ++i) order_.emplace_back(light_[i], share_[i]);
    std::ranges::sort(order_);
    each_.clear();
    double area = 0;
    std::uint16_t last = 0;
    for (const auto& [light, share] : order_) {
        if (each_.empty() || light != last) each_.push_back({double(light) / kParts, 0});
        each_.back().share += share;
        area += share;
        last = light;
    }
    for (SharedLight& light : each_) light.share /= area;
    return each_;
}

LightQuadrature::LightQuadrature(const std::vector<SharedLight>& lights) {
    middle_ = (lights.front().light + lights.back().light) / 2;
    half_ = std::max((lights.back().light - lights.front().light) / 2, 1e-9);
    most_ = std::min(kMost, lights.size());
    // Values of two polynomials in a row at each light.
    std::vector<double> now(lights.size(), 1), before(lights.size(), 0);
    double norm_before = 1;
    for (std::size_t k = 0; k < most_; ++k) {
        double norm = 0, first = 0;
        for (std::size_t i = 0; i < lights.size(); ++i) {
            const double weight = lights[i].share * now[i] * now[i];
            norm += weight;
            first += weight * (lights[i].light - middle_) / half_;
        }
        if (k > 0 && norm < 1e-12) {
            most_ = k;
            break;
        }
        diagonal_[k] = first / norm;
        const double beta = k > 0 ? norm / norm_before : 0;
        beside_[k] = std::sqrt(beta);
        norm_before = norm;
        for (std::size_t i = 0; i < lights.size(); ++i) {
            const double next =
                ((lights[i].light - middle_) / half_ - diagonal_[k]) * now[i] - beta * before[i];
            before[i] = now[i];
            now[i] = next;
        }
    }
}

std::vector<SharedLight> LightQuadrature::points(std::size_t count) const {
    count = std::min(count, most_);
    Eigen::VectorXd diagonal(count), beside(count - 1);
    for (std::size_t k = 0; k < count; ++k) {
        diagonal[Eigen::Index(k)] = diagonal_[k];
        if (k > 0) beside[Eigen::Index(k) - 1] = beside_[k];
    }
    Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solved;
    solved.computeFromTridiagonal(diagonal, beside);
    std::vector<SharedLight> points;
    for (Eigen::Index k = 0; k < Eigen::Index(count); ++k) {
        const double first = solved.eigenvectors()(0, k);
        points.push_back({middle_ + half_ * solved.eigenvalues()[k], first * first});
    }
    return points;
}

}  // namespace fogproof::scan
