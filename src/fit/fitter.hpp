// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One least-squares problem of a pack: unknowns in units of their own doubt, readings in units of their
// error, and what was known before as further residuals.
#pragma once

#include <Eigen/Dense>
#include <span>
#include <vector>

#include "fit/least_squares.hpp"
#include "fit/likeness.hpp"
#include "fit/predictor.hpp"
#include "fit/unknowns.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// Gaussian knowledge of unknowns before any reading.
struct Prior {
    Pack pack;  ///< with a filter for every grade read
    std::vector<Unknown> unknowns;
    Eigen::VectorXd mean;
    Eigen::MatrixXd covariance;
};
[[nodiscard]] Prior prior_for(const Pack& before, std::span<const Reading>);

/// The same of a paper whose departure from the laws is known: as at this place in the unknowns.
[[nodiscard]] Prior departing_as(Prior, const Eigen::VectorXd&);
/// Papers depart from the laws so many times as far as usual.
void scale_departure(Prior&, double factor);

struct Fitted {
    [[nodiscard]] bool usable() const {
        return ending == Ending::converged || ending == Ending::out_of_steps;
    }

    Ending ending = Ending::failed;
    int steps = 0;
    double cost = 0, prior_cost = 0;  ///< of all, and of leaving what was known before of the laws
    Eigen::VectorXd mean;             ///< of all unknowns
    Eigen::MatrixXd covariance;       ///< of all unknowns
    std::vector<double> densities;
    double free_numbers = 0;  ///< how many numbers the readings have settled, prior knowledge set off
    std::vector<bool> active;
    /// What one standard deviation of each independent bit of prior knowledge does to every reading, and the
    /// residuals where that knowledge stood; outliers count for less. Linear in the unknowns.
    Eigen::MatrixXd effect;
    Eigen::VectorXd at_prior;
};

class ScaledPrior;

class Fitter {
  public:
    Fitter(const Prior&, std::span<const Reading>);
    /// From a rough search, and where that ends in a poor place from others too.
    [[nodiscard]] Fitted fitted_from_afar(const ErrorSizes&, int most_steps);
    /// From a place in the unknowns; empty: from a rough search.
    [[nodiscard]] Fitted fitted(const ErrorSizes&, const Eigen::VectorXd& start, int most_steps);
    /// Of many readings, from a place close to the best one: outliers weigh throughout what they do there.
    /// The next fit from the place found weighs them anew.
    /// Where each reading stands for many alike, only the place found means something.
    [[nodiscard]] Fitted fitted_near(const ErrorSizes&, const Eigen::VectorXd& near, int most_steps,
                                     double stand_for = 1);
    [[nodiscard]] Pack pack_at(const Eigen::VectorXd&) const;
    [[nodiscard]] const Likeness& likeness() const { return likeness_; }

  private:
    [[nodiscard]] std::optional<std::vector<double>> asked(const Eigen::VectorXd&, bool is_detour);
    struct ReadOff {
        std::optional<double> white, blank;
        double darkest = 0;
        int lit = 0;  // patches
        bool has_bleach = false;
    };
    [[nodiscard]] ReadOff read_off() const;
    [[nodiscard]] double* number_in(Eigen::VectorXd&, const std::string& name) const;
    void search(Eigen::VectorXd&, const std::string& name, double reach, double step);
    [[nodiscard]] Eigen::VectorXd rough_start();
    void choose_active(const Eigen::VectorXd& at);
    [[nodiscard]] Fitted solved(const ErrorSpread&, const Eigen::VectorXd& from, SquaresProblem,
                                const Eigen::VectorXd& weights);
    /// What a solution says of all unknowns; weighed residuals count `whole` times.
    [[nodiscard]] Fitted told(const SquaresSolution&, const SquaresProblem&, const ScaledPrior&,
                              const ErrorSpread&, double whole);

    const Prior& prior_;
    std::vector<Reading> readings_;
    Likeness likeness_;
    Predictor predictor_;
    Pack lean_;  // without texts and knowledge, quick to copy
    std::vector<std::size_t> active_;
};

/// Residual shrunk so that a far outlier pulls no more than in proportion to the root of its distance.
[[nodiscard]] double robust(double residual);

/// Reading and law error, learnt from residuals (fitted minus read) and repeated patches, the sheets' shifts
/// set off.
[[nodiscard]] ErrorSizes learnt_errors(std::span<const Reading>, const Likeness&, const ErrorSizes& before,
                                       std::span<const double> residuals, double free_numbers);

/// How many times as far as usual this paper departs from the laws; `factor_now` is what the fit took for it.
[[nodiscard]] double learnt_departure(const Prior&, const Likeness&, const ErrorSizes&, const Fitted&,
                                      double factor_now);

struct SheetScatter {
    double value, deviation;  ///< D
};
[[nodiscard]] SheetScatter usual_sheet_scatter();
[[nodiscard]] SheetScatter learnt_sheet_scatter(const Likeness&, ErrorSizes, const Fitted&);
}  // namespace fogproof::fit
