// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/contradiction.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

#include "fit/label_readings.hpp"
#include "fit/left_out.hpp"
#include "fit/slips_of_pen.hpp"
#include "fit/suspicions.hpp"
#include "fit/treated_patch.hpp"
#include "fogproof/base/error.hpp"

namespace fogproof::fit {
namespace {

// D; strips that are off by more are named even if no label fits. Judgement.
constexpr double kHopeless = 0.15;
// A pack is unlikely when what was known before is left by more than this, half a sum of squares. Judgement.
constexpr double kUnlikely = 10;
// A label is believed when it leaves at most these shares of the strip's error and of what the cost is more
// than it usually would be, and the cost falls by so much: exp(12) is far more than the labels tried.
// Judgement.
constexpr double kErrorLeft = 0.5, kCostLeft = 0.6, kExchangeGain = 12;
constexpr int kLabelSteps = 25;
// Strips that are looked into, the one first without which the rest agree best; of each, labels that are
// fitted in full, the likeliest first, of its own and exchanged ones.
constexpr std::size_t kStripsTried = 3, kOwnTried = 3, kExchangesTried = 2;
// A label of its own is not tried whose chance is less by this power of e than that of one which explains the
// strip. Chances of exchanges hang on the other strip, still wrong, and are too rough for that.
constexpr double kWorse = 8;
// Of so many strips, those most out of line, all pairs are weighed; those are left out in full, of one strip
// and of two, without which a linear fit is the best.
constexpr std::size_t kMostForPairs = 16, kSingles = 6, kPairs = 5;
// Labels that cost no more than this over the best are named too: twenty to one.
constexpr double kAlsoLikely = 3;
// More readings leave the paper's departure from the laws as the fit of all has found it.
constexpr std::size_t kShowDeparture = 200;

using Readings = std::vector<Reading>;

// A pack fitted without some strips.
struct Others {
    std::vector<std::string> left_out;
    Fitted fit;
    Pack paper;
    bool agree = false;
    std::size_t kept = 0;  // readings
};

// A label that explains a strip.
struct Explained {
    std::string strip, words;
    double cost, rms, rms_before;
};

// Strips are in line with a fit, and the pack stays near what was known before.
bool readings_agree(const Fitted& fit, std::span<const Reading> readings, const ErrorSizes& errors) {
    return fit.prior_cost < kUnlikely &&
           std::ranges::none_of(suspicions(errors, readings, fit.densities),
                                [](const auto& strip) { return strip.second > 0; });
}

// A search among readings that are not many: some of the others tell what a strip should be as well as all.
class Search {
  public:
    Search(const Prior& prior, std::span<const Reading> readings, const ErrorSizes& errors)
        : prior_(prior),
          readings_(readings.begin(), readings.end()),
          strips_(strips_in(readings)),
          errors_(compared(errors)) {
        // The labels of a sheet hold for both its halves.
        std::ranges::copy(sheets_in_halves(readings), std::back_inserter(strips_));
    }

    // From a place in the unknowns.
    [[nodiscard]] std::optional<Contradiction> found(const Eigen::VectorXd& start) {
        if (strips_.size() < 2) return std::nullopt;
        const Fitted as_read = Fitter(prior_, readings_).fitted(errors_, start, kLabelSteps);
        if (!as_read.usable()) return std::nullopt;
        const double usual = double(readings_.size()) / 2 * std::pow(errors_.reading / unit_of(errors_), 2);
        least_ =
            std::min(as_read.cost - kExchangeGain, usual + kCostLeft * std::max(as_read.cost - usual, 0.0));
        std::vector<Others> without_one;
        for (const auto& strip : looked_into(as_read))
            if (auto others = without({strip}, as_read.mean)) without_one.push_back(std::move(*others));
        std::ranges::sort(without_one, {}, [this](const Others& one) { return lost(one); });
        if (without_one.size() > kStripsTried) without_one.resize(kStripsTried);
        const bool one_alone = std::ranges::any_of(without_one, &Others::agree);
        for (const auto& others : without_one)
            // No label of a strip costs less than leaving it out.
            if ((others.agree || !one_alone) && others.fit.cost < least_cost()) try_likeliest(others);
        if (!one_alone) try_pairs(as_read);
        return best();
    }

  private:
    [[nodiscard]] bool agree(const Fitted& fit, const Readings& readings) const {
        return readings_agree(fit, readings, errors_);
    }

    [[nodiscard]] double lost(const Others& others) const {
        return others.fit.cost + double(readings_.size() - others.kept) / 2;
    }

    // Those without which the rest agree best, as far as a linear fit tells; of many strips only the most
    // suspicious ones are asked about.
    [[nodiscard]] std::vector<std::string> looked_into(const Fitted& all) {
        if (strips_.size() > kMostForPairs) {
            strips_ = most_suspicious(strips_, suspicions(errors_, readings_, all.densities), kMostForPairs);
        }
        std::vector<std::pair<double, std::string>> order;
        for (const auto& strip : strips_)
            order.emplace_back(left_out(all, readings_, prior_.pack, errors_, std::span(&strip, 1)).lost,
                               strip);
        std::ranges::stable_sort(order, {}, [](const auto& one) { return one.first; });
        order.resize(std::min(order.size(), kSingles));
        std::vector<std::string> strips;
        for (const auto& one : order) strips.push_back(one.second);
        return strips;
    }

    [[nodiscard]] std::optional<Others> without(std::vector<std::string> left_out,
                                                const Eigen::VectorXd& start) const {
        Readings rest;
        for (const auto& reading : readings_)
            if (std::ranges::none_of(left_out, [&](const auto& s) { return is_part_of(reading.strip, s); }))
                rest.push_back(reading);
        if (rest.empty()) return of_nothing(std::move(left_out));
        Fitter fitter(prior_, rest);
        Fitted fit = fitter.fitted(errors_, start, kLabelSteps);
        if (!fit.usable()) return std::nullopt;
        const bool they_agree = agree(fit, rest);
        Pack paper = fitter.pack_at(fit.mean);
        return Others{std::move(left_out), std::move(fit), std::move(paper), they_agree, rest.size()};
    }

    // Two strips alone may still have changed places: what was known before them tells.
    [[nodiscard]] Others of_nothing(std::vector<std::string> left_out) const {
        Fitted fit;
        fit.ending = Ending::converged;
        return {std::move(left_out), std::move(fit), prior_.pack, true, 0};
    }

    // Logarithm of the chance of readings where others have set the pack, as roughly as they have.
    [[nodiscard]] double log_chance(const Readings& some, const Others& others) const {
        const Likeness likeness(some, prior_.pack);
        Predictor predictor(prior_.pack, some);
        const auto middle = predictor.densities(others.paper);
        const auto m = Eigen::Index(some.size()), n = Eigen::Index(prior_.unknowns.size());
        Eigen::MatrixXd effect = Eigen::MatrixXd::Zero(m, n);
        for (Eigen::Index j = 0; j < n; ++j) {
            const Unknown& unknown = prior_.unknowns[std::size_t(j)];
            const double deviation = std::sqrt(std::max(others.fit.covariance(j, j), 1e-12));
            const double at = others.fit.mean[j];
            const double moved = at + deviation < unknown.highest ? at + deviation : at - deviation;
            Pack pack = others.paper;
            unknown.put(pack, moved);
            try {
                const auto there = predictor.densities(pack, true);
                for (Eigen::Index i = 0; i < m; ++i)
                    effect(i, j) = (there[std::size_t(i)] - middle[std::size_t(i)]) / (moved - at);
            } catch (const Error&) {
                // No such pack: the others do not doubt this number so far.
            }
        }
        // What the others leave open is one more set of shared errors.
        const Eigen::LLT<Eigen::MatrixXd> open(others.fit.covariance +
                                               1e-12 * Eigen::MatrixXd::Identity(n, n));
        const Eigen::MatrixXd by_number = effect * Eigen::MatrixXd(open.matrixL());
        const SharedErrors together = likeness.shared(errors_);
        std::vector<Eigen::Triplet<double>> cells;
        for (Eigen::Index k = 0; k < together.outerSize(); ++k)
            for (SharedErrors::InnerIterator at(together, k); at; ++at)
                cells.emplace_back(int(at.row()), int(at.col()), at.value());
        for (Eigen::Index i = 0; i < m; ++i)
            for (Eigen::Index j = 0; j < n; ++j)
                cells.emplace_back(int(i), int(together.cols() + j), by_number(i, j));
        SharedErrors all(m, together.cols() + n);
        all.setFromTriplets(cells.begin(), cells.end());
        const ErrorSpread spread(likeness.own(errors_), std::move(all));
        Eigen::VectorXd residuals(m);
        for (Eigen::Index i = 0; i < m; ++i) {
            const double unit = spread.unit()[i];
            residuals[i] = unit * robust((middle[std::size_t(i)] - some[std::size_t(i)].density) / unit);
        }
        return -spread.whitened(residuals).squaredNorm() / 2 - spread.log_volume();
    }

    // Of the readings that are relabelled, or as they were labelled; nothing in the pack of the others shows
    // them: no chance.
    [[nodiscard]] double log_chance(const Relabelling& made, bool relabelled, const Others& others) const {
        Readings some = made.readings;
        for (std::size_t i = 0; i < some.size() && !relabelled; ++i) some[i] = readings_[made.rows[i]];
        try {
            return log_chance(some, others);
        } catch (const Error&) {
            return -std::numeric_limits<double>::infinity();
        }
    }

    void try_likeliest(const Others& others) {
        const auto labels = slips_of_pen(readings_, prior_.pack, others.left_out.front(), strips_);
        std::map<std::string, double> as_labelled;  // by the other strip of an exchange
        std::vector<std::pair<double, const Relabelling*>> order;
        for (const auto& made : labels) {
            if (!as_labelled.contains(made.with)) as_labelled[made.with] = log_chance(made, false, others);
            order.emplace_back(as_labelled[made.with] - log_chance(made, true, others), &made);
        }
        std::ranges::stable_sort(order, {}, [](const auto& one) { return one.first; });
        std::size_t own = 0, exchanges = 0;
        double farthest = std::numeric_limits<double>::infinity();
        for (const auto& [loss, made] : order) {
            if (made->is_swap ? exchanges++ >= kExchangesTried : own++ >= kOwnTried || loss > farthest)
                continue;
            if (try_in_full(*made, others) && !made->is_swap) farthest = std::min(farthest, loss + kWorse);
        }
    }

    [[nodiscard]] double least_cost() const {
        double least = std::numeric_limits<double>::infinity();
        for (const auto& one : explained_) least = std::min(least, one.cost);
        return least;
    }

    void try_pairs(const Fitted& as_read) {
        std::vector<std::pair<double, std::vector<std::string>>> order;
        for (std::size_t a = 1; a < strips_.size(); ++a)
            for (std::size_t b = 0; b < a; ++b) {
                if (is_part_of(strips_[a], strips_[b]) || is_part_of(strips_[b], strips_[a])) continue;
                std::vector<std::string> pair{strips_[a], strips_[b]};
                const double cost = left_out(as_read, readings_, prior_.pack, errors_, pair).lost;
                order.emplace_back(cost, std::move(pair));
            }
        std::ranges::stable_sort(order, {}, [](const auto& one) { return one.first; });
        order.resize(std::min(order.size(), kPairs));
        for (const auto& [cost, pair] : order) {
            // Two wrong slips have pulled white and blank too far for the rest to find back from there.
            const bool are_slips = is_slip(pair[0]) && is_slip(pair[1]);
            const auto others = without(pair, are_slips ? Eigen::VectorXd{} : as_read.mean);
            if (!others || !others->agree || others->fit.cost > least_) continue;
            for (const auto& made : slips_of_pen(readings_, prior_.pack, pair[0], std::span(&pair[1], 1)))
                if (made.is_swap) try_in_full(made, *others);
        }
    }

    [[nodiscard]] bool is_slip(const std::string& strip) const {
        return std::ranges::none_of(readings_, [&](const Reading& reading) {
            const TreatedPatch patch = treated(reading, prior_.pack);
            return is_part_of(reading.strip, strip) && patch.exposure_s > 0 && patch.develop_s > 0;
        });
    }

    // True where the label explains the strip.
    bool try_in_full(const Relabelling& made, const Others& others) {
        const std::string& strip = others.left_out.front();
        const Readings readings = with_labels_of(made, readings_);
        const Fitted fit = Fitter(prior_, readings).fitted(errors_, others.fit.mean, kLabelSteps);
        if (!fit.usable() || fit.cost > least_) return false;
        const double before =
            strip_rms(readings_, Predictor(prior_.pack, readings_).densities(others.paper), strip);
        const double after = strip_rms(readings, fit.densities, strip);
        if (after > kErrorLeft * before) return false;
        explained_.push_back({strip, made.words, fit.cost, after, before});
        return true;
    }

    [[nodiscard]] std::optional<Contradiction> best() {
        if (explained_.empty()) return std::nullopt;
        std::ranges::stable_sort(explained_, {}, &Explained::cost);
        const Explained& first = explained_.front();
        std::string words = first.words;
        const auto second = std::find_if(explained_.begin() + 1, explained_.end(), [&](const Explained& one) {
            return one.strip == first.strip && one.words != first.words;
        });
        if (second != explained_.end() && second->cost < first.cost + kAlsoLikely)
            words += " or " + second->words;
        return Contradiction{first.strip, first.rms_before, words, first.rms};
    }

    const Prior& prior_;
    Readings readings_;
    std::vector<std::string> strips_;  // and sheets in halves
    ErrorSizes errors_;
    double least_ = 0;  // cost that a label must come below
    std::vector<Explained> explained_;
};

}  // namespace

ErrorSizes compared(const ErrorSizes& errors) {
    return {std::clamp(errors.reading, 0.01, 0.03), std::clamp(errors.law, 0.006, 0.012),
            std::clamp(errors.sheet, 0.005, 0.015)};
}

std::vector<Contradiction> contradictions_in(const Prior& prior, std::span<const Reading> readings,
                                             const ErrorSizes& errors, const Fitted& all) {
    if (!readings_agree(all, readings, compared(errors))) {
        // So many readings have shown how the paper departs, whatever one label says.
        const Prior known = readings.size() > kShowDeparture ? departing_as(prior, all.mean) : prior;
        if (const auto found =
                Search(known, weighed_for_labels(prior.pack, readings, compared(errors), all.densities),
                       errors)
                    .found(all.mean))
            return {*found};
    }
    std::vector<Contradiction> hopeless;
    const auto rms = strips_rms(readings, all.densities);
    for (const auto& strip : strips_in(readings))
        if (rms.at(strip) > kHopeless) hopeless.push_back({strip, rms.at(strip), std::nullopt, std::nullopt});
    return hopeless;
}

}  // namespace fogproof::fit
