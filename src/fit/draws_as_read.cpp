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
#include "system/threads.hpp"

namespace fogproof::fit {
namespace {

// Some readings hold a draw as well as many.
constexpr std::size_t kEnough = 400;
// Of a number's deviation; local, as the slopes of the fit were.
constexpr double kStep = 1e-3;
// A straight step towards the readings is taken so often, halved so often where it does not help.
constexpr int kSteps = 6, kHalvings = 3;
// Chi squared of what bends, below which a draw shows the readings as well as any.
constexpr double kNear = 0.05;

// What the fit of a pack knew: its doubtful numbers, how they err together, and what they do to the readings.
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
        const auto n = Eigen::Index(numbers_.size());
        middle_.resize(n);
        covariance_.resize(n, n);
        for (Eigen::Index i = 0; i < n; ++i) {
            const Unknown& one = numbers_[std::size_t(i)];
            middle_[i] = one.of(pack);
            for (Eigen::Index j = 0; j < n; ++j) {
                const Unknown& other = numbers_[std::size_t(j)];
                covariance_(i, j) =
                    doubt_of(one) * doubt_of(other) * pack::correlation(pack.fit, one.name, other.name);
            }
        }
        pack_.fit = {};
        find_slopes();
    }

    void bring_back(pack::PackDraw& draw) const {
        Predictor predictor(pack_, readings_);
        Eigen::VectorXd at(middle_.size());
        for (Eigen::Index i = 0; i < at.size(); ++i) at[i] = numbers_[std::size_t(i)].of(draw.pack);
        const Eigen::VectorXd straight = slopes_ * (at - middle_);
        std::optional<Eigen::VectorXd> bent = bend(predictor, draw.pack, straight);
        for (int step = 0; step < kSteps && bent && bent->squaredNorm() > kNear; ++step) {
            Eigen::VectorXd by = -pull_ * *bent;
            bool is_nearer = false;
            for (int half = 0; half <= kHalvings && !is_nearer; ++half, by /= 2) {
                const Pack nearer = moved(draw.pack, at + by);
                const auto left = bend(predictor, nearer, straight);
                is_nearer = left && left->squaredNorm() < bent->squaredNorm();
                if (!is_nearer) continue;
                draw.pack = nearer;
                at += by;
                bent = left;
            }
            if (!is_nearer) return;
        }
    }

  private:
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

    void find_slopes() {
        Predictor predictor(pack_, readings_);
        const auto m = Eigen::Index(readings_.size()), n = middle_.size();
        here_ = predictor.densities(pack_);
        slopes_ = Eigen::MatrixXd::Zero(m, n);
        for (Eigen::Index i = 0; i < n; ++i) {
            const Unknown& unknown = numbers_[std::size_t(i)];
            const double step = kStep * std::sqrt(covariance_(i, i));
            const double to = middle_[i] + (middle_[i] + step > unknown.highest ? -step : step);
            Pack pack = pack_;
            unknown.put(pack, to);
            const auto there = predictor.densities(pack, true);
            for (Eigen::Index r = 0; r < m; ++r)
                slopes_(r, i) = (there[std::size_t(r)] - here_[std::size_t(r)]) / (to - middle_[i]);
        }
        Eigen::MatrixXd whitened(spread_.length(), n);
        for (Eigen::Index i = 0; i < n; ++i) whitened.col(i) = spread_.whitened(slopes_.col(i));
        pull_ = covariance_ * whitened.transpose();
    }

    // By how far the draw shows the readings otherwise than straight lines would, whitened; nothing where
    // there is no such paper.
    [[nodiscard]] std::optional<Eigen::VectorXd> bend(Predictor& predictor, const Pack& draw,
                                                      const Eigen::VectorXd& straight) const {
        try {
            const auto there = predictor.densities(draw);
            Eigen::VectorXd by(Eigen::Index(there.size()));
            for (std::size_t r = 0; r < there.size(); ++r)
                by[Eigen::Index(r)] = there[r] - here_[r] - straight[Eigen::Index(r)];
            return spread_.whitened(by);
        } catch (const Error&) {
            return std::nullopt;
        }
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
    Eigen::VectorXd middle_;
    Eigen::MatrixXd covariance_, slopes_, pull_;
    std::vector<double> here_;
};

}  // namespace

std::vector<pack::PackDraw> draws_as_read(const Pack& pack, std::size_t count, std::uint64_t set) {
    auto draws = pack::draws_of(pack, count, set);
    if (pack.fit.numbers.empty() || pack.readings.empty()) return draws;
    const Known known(pack, fewer_of(pack.readings.rows(), pack, kEnough));
    system::in_parallel(draws.size(), [&](std::size_t i) { known.bring_back(draws[i]); });
    return draws;
}

}  // namespace fogproof::fit
