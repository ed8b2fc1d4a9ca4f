// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A smooth rising map of a line: its slope is e^g, with g linear between some nodes and level beyond them. It
// rises whatever g is, and it and its inverse are exact.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

template <std::size_t N>
class RisingMap {
  public:
    RisingMap() = default;
    /// Nodes rise. The map keeps `kept`, which lies between the first node and the last.
    RisingMap(std::span<const double, N> nodes, std::span<const double, N> log_slope, double kept) {
        std::ranges::copy(nodes, x_.begin());
        std::ranges::copy(log_slope, g_.begin());
        for (std::size_t i = 0; i < N; ++i) slope_[i] = std::exp(g_[i]);
        for (std::size_t i = 1; i < N; ++i) y_[i] = y_[i - 1] + part(i - 1, x_[i] - x_[i - 1]);
        const double off = kept - (*this)(kept);
        for (double& y : y_) y += off;
    }
    [[nodiscard]] double operator()(double x) const {
        if (x <= x_.front()) return y_.front() + (x - x_.front()) * slope_.front();
        if (x >= x_.back()) return y_.back() + (x - x_.back()) * slope_.back();
        const std::size_t i = cell(x_, x);
        return y_[i] + part(i, x - x_[i]);
    }
    [[nodiscard]] double inverse(double y) const {
        if (y <= y_.front()) return x_.front() + (y - y_.front()) / slope_.front();
        if (y >= y_.back()) return x_.back() + (y - y_.back()) / slope_.back();
        const std::size_t i = cell(y_, y);
        const double bend = bend_of(i), straight = (y - y_[i]) / slope_[i];
        const double u = bend * straight;
        return x_[i] + (std::abs(u) < kStraight ? straight * (1 - u / 2) : std::log1p(u) / bend);
    }

  private:
    static constexpr double kStraight = 1e-7;

    [[nodiscard]] static std::size_t cell(const std::array<double, N>& ends, double at) {
        std::size_t i = 0;
        while (i + 2 < N && at >= ends[i + 1]) ++i;
        return i;
    }
    [[nodiscard]] double bend_of(std::size_t i) const { return (g_[i + 1] - g_[i]) / (x_[i + 1] - x_[i]); }
    // Integral of e^g over the first `along` of a cell.
    [[nodiscard]] double part(std::size_t i, double along) const {
        const double bend = bend_of(i), u = bend * along;
        return slope_[i] * (std::abs(u) < kStraight ? along * (1 + u / 2) : std::expm1(u) / bend);
    }

    std::array<double, N> x_{}, y_{}, g_{}, slope_{};
};

}  // namespace fogproof::base
