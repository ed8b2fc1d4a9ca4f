// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/boxed_minimum.hpp"

#include <Eigen/Core>
#include <algorithm>

#include "base/symmetric_system.hpp"

namespace fogproof::fit {
namespace {

// Changes of what is held, of each number; far more than it takes.
constexpr Eigen::Index kMostChanges = 6;

std::vector<Eigen::Index> numbers_where(const std::vector<bool>& held, bool is) {
    std::vector<Eigen::Index> numbers;
    for (std::size_t i = 0; i < held.size(); ++i)
        if (held[i] == is) numbers.push_back(Eigen::Index(i));
    return numbers;
}

}  // namespace

BoxedMinimum boxed_minimum(const Eigen::MatrixXd& curvature, const Eigen::VectorXd& slope,
                           const Eigen::VectorXd& lowest, const Eigen::VectorXd& highest) {
    const Eigen::Index n = slope.size();
    Eigen::VectorXd at = Eigen::VectorXd::Zero(n);
    std::vector<bool> held(std::size_t(n), false);
    for (Eigen::Index change = 0; change < kMostChanges * n; ++change) {
        const auto free = numbers_where(held, false);
        const Eigen::VectorXd here = curvature * at + slope;
        const Eigen::VectorXd step = -solved_positive(curvature(free, free), here(free));
        // As far as the first bound on the way.
        double share = 1;
        Eigen::Index stopped = -1;
        for (std::size_t k = 0; k < free.size(); ++k) {
            const double by = step[Eigen::Index(k)], from = at[free[k]];
            const double room = by < 0 ? lowest[free[k]] - from : highest[free[k]] - from;
            if (by != 0 && room / by < share) share = room / by, stopped = free[k];
        }
        for (std::size_t k = 0; k < free.size(); ++k) at[free[k]] += share * step[Eigen::Index(k)];
        if (stopped >= 0) {
            const bool is_down = step[Eigen::Index(std::ranges::find(free, stopped) - free.begin())] < 0;
            at[stopped] = is_down ? lowest[stopped] : highest[stopped];
            held[std::size_t(stopped)] = true;
            continue;
        }
        // The least among what is free: let go the number that its bound holds back for nothing, if any.
        const Eigen::VectorXd reached = curvature * at + slope;
        Eigen::Index loose = -1;
        double most = 0;
        for (const Eigen::Index i : numbers_where(held, true)) {
            const double inwards = at[i] <= lowest[i] ? -reached[i] : reached[i];
            if (inwards > most) most = inwards, loose = i;
        }
        if (loose < 0) break;
        held[std::size_t(loose)] = false;
    }
    BoxedMinimum minimum{std::move(at), {}};
    for (const Eigen::Index i : numbers_where(held, true)) minimum.held.push_back(int(i));
    return minimum;
}

}  // namespace fogproof::fit
