// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One least-squares problem of a pack: unknowns in units of their own doubt, readings in units of their
// error, and what was known before as further residuals.
#pragma once

#include <Eigen/Dense>
#include <span>
#include <vector>

#include "calibrate/unknowns.hpp"
#include "fogproof/calibrate/least_squares.hpp"
#include "fogproof/calibrate/predictor.hpp"

namespace fogproof {

/// Gaussian knowledge of unknowns before any reading.
struct Prior {
    Pack pack;  ///< with a filter for every grade read
    std::vector<Unknown> unknowns;
    Eigen::VectorXd mean;
    Eigen::MatrixXd covariance;
};
[[nodiscard]] Prior prior_for(const Pack& before, std::span<const Reading>);

/// Errors of one reading, D.
struct Errors {
    double reading = 0.01;  ///< of the instrument, from one patch to the next
    double law = 0;         ///< of the laws, alike for neighbouring patches
    double sheet = 0;       ///< of one sheet against another
    /// What a single reading weighs.
    [[nodiscard]] double weight_deviation() const;
};

struct Fitted {
    Ending ending = Ending::failed;
    int steps = 0;
    double cost = 0;
    Eigen::VectorXd mean;        ///< of all unknowns
    Eigen::MatrixXd covariance;  ///< of all unknowns
    std::vector<double> densities;
    double free_numbers = 0;  ///< how many numbers the readings have settled, prior knowledge set off
    std::vector<bool> active;
};

class Fitter {
  public:
    Fitter(const Prior&, std::span<const Reading>);
    /// From a place in the unknowns; empty: from a rough search.
    [[nodiscard]] Fitted fitted(const Errors&, const Eigen::VectorXd& start, int most_steps);
    [[nodiscard]] Pack pack_at(const Eigen::VectorXd&) const;

  private:
    [[nodiscard]] std::optional<std::vector<double>> asked(const Eigen::VectorXd&, bool is_detour);
    [[nodiscard]] Eigen::VectorXd rough_start();
    void choose_active(const Eigen::VectorXd& at);

    const Prior& prior_;
    std::vector<Reading> readings_;
    Predictor predictor_;
    Pack lean_;  // without texts and knowledge, quick to copy
    std::vector<std::size_t> active_;
};

/// Residual shrunk so that a far outlier pulls no more than in proportion to the root of its distance.
[[nodiscard]] double robust(double residual);

/// Learnt from residuals (fitted minus read) and repeated patches.
[[nodiscard]] Errors learnt_errors(std::span<const Reading>, const Pack&, std::span<const double> residuals,
                                   double free_numbers);

}  // namespace fogproof
