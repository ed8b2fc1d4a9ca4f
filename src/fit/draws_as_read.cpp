// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/draws_as_read.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "fit/fewer.hpp"
#include "fit/likeness.hpp"
#include "fit/predictor.hpp"
#include "fit/treated_patch.hpp"
#include "fit/unknowns.hpp"
#include "fogproof/base/error.hpp"
#include "pack/uncertainty.hpp"
#include "pack/without_fit.hpp"
#include "system/threads.hpp"

namespace fogproof::fit {
namespace {

// Some readings hold a draw as well as many.
constexpr std::size_t kEnough = 400;
// Of a number's deviation; local, as the slopes of the fit were.
constexpr double kStep = 1e-3;
// A straight step towards the readings is taken so often, halved so often where it does not help.
constexpr int kSteps = 8, kHalvings = 3, kAttempts = 4;
// A whole step that leaves more than this of chi squared is the last: no other would bring the draw much
// nearer.
constexpr double kLittleGained = 0.95;
// Chi squared of what bends, below which a draw shows the readings as well as any.
constexpr double kNear = 2;

// Nothing where there is no such paper.
std::optional<std::vector<double>> densities_if_any(Predictor& predictor, const Pack& pack, bool is_detour) {
    try {
        return predictor.densities(pack, is_detour);
    } catch (const Error&) {
        return std::nullopt;
    }
}

// What the fit of a pack knew: its doubtful numbers, and what they do to the readings.
class Known {
  public:
    Known(const Pack& pack, std::vector<Reading> readings)
        : pack_(pack),
          readings_(std::move(readings)),
          spread_(Likeness(readings_, pack).spread({kReadingError, pack.law_scatter, pack.sheet_scatter})) {
        pack_.notes.clear();
        pack_.readings = {};
        for (auto& unknown : unknowns_of(pack))
            if (doubt_of(unknown) > 0 && is_fitted(unknown)) numbers_.push_back(std::move(unknown));
        middle_.resize(Eigen::Index(numbers_.size()));
        doubt_.resize(middle_.size());
        for (Eigen::Index i = 0; i < middle_.size(); ++i) {
            middle_[i] = numbers_[std::size_t(i)].of(pack);
            doubt_[i] = doubt_of(numbers_[std::size_t(i)]);
        }
        Eigen::MatrixXd covariance(middle_.size(), middle_.size());
        for (std::size_t i = 0; i < numbers_.size(); ++i)
            for (std::size_t j = 0; j < numbers_.size(); ++j)
                covariance(Eigen::Index(i), Eigen::Index(j)) =
                    doubt_[Eigen::Index(i)] * doubt_[Eigen::Index(j)] *
                    pack::correlation(pack.fit, numbers_[i].name, numbers_[j].name);
        pack_ = without_fit(std::move(pack_));
        Predictor predictor(pack_, readings_);
        const auto here = predictor.densities(pack_);
        here_ = Eigen::Map<const Eigen::VectorXd>(here.data(), Eigen::Index(here.size()));
        slopes_ = slopes_at(predictor, pack_, middle_);
        const Eigen::MatrixXd slopes = whitened(slopes_);
        told_ = (slopes * covariance * slopes.transpose()).trace();
    }

    /// A draw from which the readings cannot be reached is taken from nearer to the pack.
    [[nodiscard]] Pack brought_back(const Pack& drawn) const {
        Predictor predictor(pack_, readings_);
        Eigen::VectorXd from(middle_.size());
        for (Eigen::Index i = 0; i < from.size(); ++i) from[i] = numbers_[std::size_t(i)].of(drawn);
        for (int attempt = 0; attempt < kAttempts; ++attempt, from = (from + middle_) / 2)
            if (auto back = brought_back(predictor, moved(drawn, from), from)) return *back;
        return drawn;
    }

  private:
    // Nothing where the readings are not reached.
    [[nodiscard]] std::optional<Pack> brought_back(Predictor& predictor, Pack pack,
                                                   const Eigen::VectorXd& from) const {
        Eigen::VectorXd at = from;
        const Eigen::VectorXd wanted = here_ + as_told(slopes_ * (at - middle_));
        std::optional<Eigen::VectorXd> away = off(predictor, pack, wanted);
        for (int step = 0; step < kSteps && away && away->squaredNorm() > kNear; ++step) {
            // The slopes of this paper, and no number farther from where it was drawn than it takes.
            const Eigen::MatrixXd slopes = whitened(slopes_at(predictor, pack, at)) * doubt_.asDiagonal();
            const Eigen::VectorXd from_drawn = (at - from).cwiseQuotient(doubt_);
            const Eigen::LLT<Eigen::MatrixXd> curvature(slopes.transpose() * slopes +
                                                        Eigen::MatrixXd::Identity(at.size(), at.size()));
            Eigen::VectorXd by =
                doubt_.cwiseProduct(-curvature.solve(slopes.transpose() * *away + from_drawn));
            const double before = away->squaredNorm();
            bool is_nearer = false, is_whole = true;
            for (int half = 0; half <= kHalvings && !is_nearer; ++half, by /= 2) {
                const Pack nearer = moved(pack, at + by);
                const auto left = off(predictor, nearer, wanted);
                is_nearer = left && left->squaredNorm() < away->squaredNorm();
                if (!is_nearer) {
                    is_whole = false;
                    continue;
                }
                pack = nearer;
                for (Eigen::Index i = 0; i < at.size(); ++i) at[i] = numbers_[std::size_t(i)].of(nearer);
                away = left;
            }
            if (!is_nearer || (is_whole && away->squaredNorm() > kLittleGained * before)) break;
        }
        if (!away || away->squaredNorm() > kNear + told_) return std::nullopt;
        return pack;
    }

    // A number that was stopped at the end of its range has left its straight line: such changes of the
    // readings are taken back to the size that is told of them.
    [[nodiscard]] Eigen::VectorXd as_told(const Eigen::VectorXd& changes) const {
        const double square = spread_.whitened(changes).squaredNorm();
        return square > told_ ? std::sqrt(told_ / square) * changes : changes;
    }

    // D; of a reading of a fit that keeps none. Common practice, no source.
    static constexpr double kReadingError = 0.012;

    [[nodiscard]] double doubt_of(const Unknown& unknown) const {
        const double deviation = pack_.known(unknown.name).deviation.value_or(0);
        return unknown.by_factor ? std::log1p(deviation / std::exp(unknown.of(pack_))) : deviation;
    }
    [[nodiscard]] bool is_fitted(const Unknown& unknown) const {
        return std::ranges::any_of(pack_.fit.numbers,
                                   [&](const auto& number) { return number.name == unknown.name; });
    }

    // Densities over numbers, where a pack stands.
    [[nodiscard]] Eigen::MatrixXd slopes_at(Predictor& predictor, const Pack& pack,
                                            const Eigen::VectorXd& at) const {
        const auto here = predictor.densities(pack);
        Eigen::MatrixXd slopes = Eigen::MatrixXd::Zero(Eigen::Index(here.size()), at.size());
        Pack there = pack;
        for (Eigen::Index i = 0; i < at.size(); ++i) {
            const Unknown& unknown = numbers_[std::size_t(i)];
            const double stood = unknown.in(there);
            for (const double step : {kStep * doubt_[i], -kStep * doubt_[i]}) {
                if (at[i] + step > unknown.highest) continue;
                unknown.put(there, at[i] + step);
                const auto densities = densities_if_any(predictor, there, true);
                if (!densities) continue;
                for (std::size_t r = 0; r < here.size(); ++r)
                    slopes(Eigen::Index(r), i) = ((*densities)[r] - here[r]) / step;
                break;
            }
            unknown.in(there) = stood;
        }
        return slopes;
    }

    [[nodiscard]] Eigen::MatrixXd whitened(const Eigen::MatrixXd& columns) const {
        Eigen::MatrixXd all(spread_.length(), columns.cols());
        for (Eigen::Index i = 0; i < columns.cols(); ++i) all.col(i) = spread_.whitened(columns.col(i));
        return all;
    }

    // By how far a paper shows the readings otherwise than it should, whitened; nothing where there is no
    // such paper.
    [[nodiscard]] std::optional<Eigen::VectorXd> off(Predictor& predictor, const Pack& pack,
                                                     const Eigen::VectorXd& wanted) const {
        const auto there = densities_if_any(predictor, pack, false);
        if (!there) return std::nullopt;
        return spread_.whitened(
            Eigen::Map<const Eigen::VectorXd>(there->data(), Eigen::Index(there->size())) - wanted);
    }

    [[nodiscard]] Pack moved(const Pack& draw, const Eigen::VectorXd& to) const {
        Pack pack = draw;
        for (std::size_t i = 0; i < numbers_.size(); ++i)
            numbers_[i].put(pack, std::clamp(to[Eigen::Index(i)], numbers_[i].lowest, numbers_[i].highest));
        return pack;
    }

    Pack pack_;
    std::vector<Reading> readings_;
    ErrorSpread spread_;
    std::vector<Unknown> numbers_;
    Eigen::VectorXd middle_, doubt_, here_;
    Eigen::MatrixXd slopes_;
    double told_ = 0;  // expected square of whitened changes
};

}  // namespace

std::vector<pack::PackDraw> draws_as_read(const Pack& pack, std::size_t count, std::uint64_t set) {
    auto draws = pack::draws_of(pack, count, set);
    if (pack.fit.numbers.empty() || pack.readings.empty()) return draws;
    const Known known(pack, fewer_of(pack.readings.rows(), pack, kEnough));
    system::in_parallel(draws.size(),
                        [&](std::size_t i) { draws[i].pack = known.brought_back(draws[i].pack); });
    return draws;
}

}  // namespace fogproof::fit
