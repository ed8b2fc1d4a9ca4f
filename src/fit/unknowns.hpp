// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The numbers of a pack that a fit may move, each as an unknown in a space without units: logarithms where a
// number goes by a factor. With what was known of them before.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

struct Unknown {
    std::string name;  ///< as in Pack::knowledge
    bool by_factor = false, is_departure = false;
    double prior = 0, doubt = 1;  ///< mean and standard deviation, in the unknown's own space
    double lowest = 0, highest = 0;
    Knowledge prior_knowledge;
    double prior_value = 0;
    std::function<double&(Pack&)> in;

    [[nodiscard]] double of(const Pack&) const;
    void put(Pack&, double x) const;
    /// One standard deviation in the unit of the value.
    [[nodiscard]] double deviation(double x, double sd) const;
};

/// Grades whose filters are unknowns of their own: those of the readings; nothing on graded paper.
[[nodiscard]] std::vector<double> grades_read(const Pack& prior, std::span<const Reading>);

/// What is expected of filters before any reading: the standard's table of ranges on this paper, off by a
/// common shift, a slope over the grades and a smooth rest. One row of covariance for each grade.
struct FilterPrior {
    std::vector<double> grades;
    std::vector<double> balance, speed;
    std::vector<double> balance_covariance, speed_covariance;  ///< row by row
};
[[nodiscard]] FilterPrior filter_prior(const Pack& prior, std::vector<double> grades);

/// Numbers of the rooms; then, for every filter of the pack, balance and speed.
[[nodiscard]] std::vector<Unknown> unknowns_of(const Pack& prior);

}  // namespace fogproof::fit
