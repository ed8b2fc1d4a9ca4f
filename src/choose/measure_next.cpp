// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/measure_next.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "base/symmetric_system.hpp"
#include "base/words.hpp"
#include "fogproof/pack/grades.hpp"
#include "pack/grade_words.hpp"
#include "pack/uncertainty.hpp"

namespace fogproof::choose {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double kReadingError = 0.01;  // D; common practice, no source
constexpr double kPartOfASheet = 0.25, kHalfASheet = 0.5;
constexpr double kBesideIt = 1.5;  // grades

// What is read of a piece: places of its halves, each half a treatment of its own.
struct Piece {
    Offer offer;
    std::vector<LitPlace> places;
};

std::vector<ToldRecipe> halves_of(const ToldRecipe& recipe) {
    if (recipe.bleach.value <= 0) return {recipe};
    ToldRecipe before = recipe;
    before.bleach = {0};
    before.dose = 0;
    return {before, recipe};
}

std::vector<LitPlace> tones_at(const Printing& printing, std::initializer_list<double> shares) {
    std::vector<LitPlace> places;
    for (const double share : shares) places.push_back({printing.frame().quantile(share), true});
    return places;
}

std::vector<Piece> pieces(const Printing& printing, const ToldRecipe& recipe) {
    const auto tones = tones_at(printing, {0.15, 0.5, 0.85});
    std::vector<Piece> all;
    const auto strip = [&](const ToldRecipe& by) {
        all.push_back({{Offer::Kind::strip, by, kPartOfASheet, 0}, tones});
    };
    strip(recipe);
    const auto grades = grades_of(printing.pack(), printing.paper());
    for (const double beside : {recipe.grade - kBesideIt, recipe.grade + kBesideIt}) {
        ToldRecipe other = recipe;
        other.grade = std::clamp(std::round(2 * beside) / 2, grades.front(), grades.back());
        if (std::abs(other.grade - recipe.grade) > kBesideIt / 2) strip(other);
    }
    if (recipe.restrainer_ml_l > 0) {
        ToldRecipe other = recipe;
        other.restrainer_ml_l = 0;
        strip(other);
    }
    all.push_back({{Offer::Kind::print, recipe, 1, 0}, tones_at(printing, {0.05, 0.35, 0.65, 0.95})});
    all.push_back({{Offer::Kind::wedge, recipe, kHalfASheet, 0},
                   {{{0.2}, false}, {{0.7}, false}, {{1.2}, false}, {{1.7}, false}}});
    return all;
}

// Rows are draws.
MatrixXd matrix_of(const std::vector<std::vector<double>>& rows) {
    MatrixXd matrix(Index(rows.size()), Index(rows.front().size()));
    for (Index i = 0; i < matrix.rows(); ++i)
        for (Index j = 0; j < matrix.cols(); ++j) matrix(i, j) = rows[std::size_t(i)][std::size_t(j)];
    return matrix;
}

MatrixXd centred(MatrixXd matrix) {
    const VectorXd mean = matrix.colwise().mean();
    return matrix.rowwise() - mean.transpose();
}

// What a printer can make up for once it is known: how the tones go with exposure, bleach and grade.
MatrixXd controls(Prospects& prospects, const ToldRecipe& recipe) {
    constexpr double kMore = 1.1, kHarder = 0.3;
    ToldRecipe longer = recipe, deeper = recipe, harder = recipe;
    longer.exposure.value *= kMore;
    deeper.bleach.value *= kMore;
    harder.grade += kHarder;
    const std::vector<double> here = prospects.likely_misses(recipe);
    std::vector<std::vector<double>> ways;
    for (const ToldRecipe& other : {longer, deeper, harder}) {
        std::vector<double> by = prospects.likely_misses(other);
        double moved = 0;
        for (std::size_t i = 0; i < by.size(); ++i) moved = std::max(moved, std::abs(by[i] -= here[i]));
        if (moved > 1e-3) ways.push_back(std::move(by));
    }
    return ways.empty() ? MatrixXd(Index(here.size()), 0) : MatrixXd(matrix_of(ways).transpose());
}

// The tones of the print to come, on every draw, and what of them stays whatever is learnt.
class PrintToCome {
  public:
    PrintToCome(const Printing& printing, Prospects& prospects, const ToldRecipe& recipe)
        : pack_(printing.pack()), misses_(matrix_of(prospects.misses(recipe))) {
        const auto& shares = prospects.shares();
        weight_ = Eigen::Map<const VectorXd>(shares.data(), Index(shares.size()));
        mean_ = misses_.colwise().mean();
        misses_ = centred(misses_);
        const MatrixXd ways = controls(prospects, recipe);
        const MatrixXd weighted = weight_.asDiagonal() * ways;
        not_made_up_ = MatrixXd::Identity(weight_.size(), weight_.size());
        if (ways.cols() > 0) not_made_up_ -= ways * solved(ways.transpose() * weighted, weighted.transpose());
        // L* of a middle tone lost by one density: L* + 16 goes with the cube root of the light.
        constexpr double kMiddle = 50, kRise = 2;  // L*, D per log10 of light
        const double slope = std::log(10.0) / 3 * (kMiddle + 16);
        own_ = std::pow(slope * unexplained_scatter(pack_, kRise), 2) + weight_.dot(mean_.cwiseAbs2());
    }

    [[nodiscard]] double square_now() const { return own_ + weighed(covariance(misses_, misses_)); }
    /// After readings, their columns by draws, of halves of so many places each.
    [[nodiscard]] double square_after(const MatrixXd& readings, Index places) const {
        const MatrixXd z = centred(readings);
        MatrixXd read = covariance(z, z);
        for (Index i = 0; i < z.cols(); ++i)
            for (Index j = 0; j < z.cols(); ++j) {
                if (i / places == j / places) read(i, j) += std::pow(pack_.sheet_scatter, 2);
                if (i == j) read(i, j) += std::pow(kReadingError, 2) + std::pow(pack_.law_scatter, 2);
            }
        const MatrixXd across = covariance(misses_, z);
        const MatrixXd learnt = across * solved(read, across.transpose());
        // So few draws follow so many readings partly by chance.
        const auto draws = double(z.rows() - 1);
        const double chance = draws / std::max(draws - double(z.cols()), 1.0);
        return own_ + chance * weighed(covariance(misses_, misses_) - learnt) +
               weighed(not_made_up_ * learnt * not_made_up_.transpose());
    }

  private:
    [[nodiscard]] static MatrixXd covariance(const MatrixXd& a, const MatrixXd& b) {
        return a.transpose() * b / double(std::max<Index>(a.rows() - 1, 1));
    }
    [[nodiscard]] double weighed(const MatrixXd& square) const { return weight_.dot(square.diagonal()); }

    const Pack& pack_;
    MatrixXd misses_, not_made_up_;
    VectorXd weight_, mean_;
    double own_ = 0;
};

}  // namespace

std::string Offer::in_words(const Pack& pack) const {
    const bool is_print = kind == Kind::print;
    std::string words = kind == Kind::wedge ? "a step wedge"
                        : is_print          ? "the print itself"
                                            : "a test strip of this negative";
    words += " " + filter_words(pack.contrast, recipe.grade) + ", restrainer " +
             decimal(recipe.restrainer_ml_l, 1) + " ml/L, developed " + decimal(recipe.develop_s, 0) + " s";
    if (pack.darkroom.anchored)
        words +=
            std::string(kind == Kind::strip ? ", around " : ", ") + two_digits(recipe.exposure.value) + " s";
    if (recipe.bleach.value > 0)
        words += std::string(is_print ? ", cut in two" : "") + ", one half bleached " +
                 two_digits(recipe.bleach.value) + " s";
    return words;
}

std::vector<Offer> measure_next(const Printing& printing, Prospects& prospects, const ToldRecipe& recipe,
                                double expected_now) {
    const PrintToCome print(printing, prospects, recipe);
    const double now = print.square_now();
    std::vector<Offer> offers;
    for (auto& [offer, places] : pieces(printing, recipe)) {
        std::vector<std::vector<double>> readings(prospects.draws());
        for (const ToldRecipe& half : halves_of(offer.recipe)) {
            const auto read = prospects.densities(half, places);
            for (std::size_t draw = 0; draw < read.size(); ++draw)
                readings[draw].insert(readings[draw].end(), read[draw].begin(), read[draw].end());
        }
        const double then = print.square_after(matrix_of(readings), Index(places.size()));
        offer.expected_then =
            now > 0 ? expected_now * std::sqrt(std::clamp(then / now, 0.0, 1.0)) : expected_now;
        offers.push_back(offer);
    }
    std::ranges::stable_sort(offers, {}, &Offer::expected_then);
    return offers;
}

}  // namespace fogproof::choose
