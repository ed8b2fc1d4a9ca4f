// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/contradiction.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

#include "fit/chance_beside.hpp"
#include "fit/label_readings.hpp"
#include "fit/left_out.hpp"
#include "fit/slips_of_pen.hpp"
#include "fit/suspicions.hpp"
#include "fit/treated_patch.hpp"
#include "fogproof/base/error.hpp"
#include "system/threads.hpp"

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
// strip. Chances of exchanges depend on the other strip, still wrong, and are too rough for that.
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
    bool is_swap;
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
        for (auto& others : without_each(looked_into(as_read), [&](const auto&) { return as_read.mean; }))
            if (others) without_one.push_back(std::move(*others));
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
    [[nodiscard]] std::vector<std::vector<std::string>> looked_into(const Fitted& all) {
        if (strips_.size() > kMostForPairs) {
            strips_ = most_suspicious(strips_, suspicions(errors_, readings_, all.densities), kMostForPairs);
        }
        std::vector<std::vector<std::string>> singles;
        for (const auto& strip : strips_) singles.push_back({strip});
        return likeliest(std::move(singles), kSingles, all);
    }

    // Of sets of strips those without which a linear fit is the best.
    [[nodiscard]] std::vector<std::vector<std::string>> likeliest(std::vector<std::vector<std::string>> sets,
                                                                  std::size_t most, const Fitted& all) const {
        std::vector<std::pair<double, std::size_t>> order(sets.size());
        in_parallel(
            sets.size(),
            [&](std::size_t i) {
                order[i] = {left_out(all, readings_, prior_.pack, errors_, sets[i]).lost, i};
            },
            0);
        std::ranges::sort(order);
        order.resize(std::min(order.size(), most));
        std::vector<std::vector<std::string>> best;
        for (const auto& [lost, i] : order) best.push_back(std::move(sets[i]));
        return best;
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

    // The same for each, on all processors.
    [[nodiscard]] std::vector<std::optional<Others>> without_each(
        std::span<const std::vector<std::string>> left_out, const auto& start_for) const {
        std::vector<std::optional<Others>> each(left_out.size());
        in_parallel(
            each.size(), [&](std::size_t i) { each[i] = without(left_out[i], start_for(left_out[i])); }, 0);
        return each;
    }

    // Two strips alone may still have changed places: what was known before them tells.
    [[nodiscard]] Others of_nothing(std::vector<std::string> left_out) const {
        Fitted fit;
        fit.ending = Ending::converged;
        return {std::move(left_out), std::move(fit), prior_.pack, true, 0};
    }

    // Of the readings that are relabelled, or as they were labelled; nothing in the pack of the others shows
    // them: no chance.
    [[nodiscard]] double log_chance(const Relabelling& made, bool relabelled, const Others& others) const {
        Readings some = made.readings;
        for (std::size_t i = 0; i < some.size() && !relabelled; ++i) some[i] = readings_[made.rows[i]];
        try {
            return log_chance_beside(others.paper, others.fit, prior_, errors_, some);
        } catch (const Error&) {
            return -std::numeric_limits<double>::infinity();
        }
    }

    void try_likeliest(const Others& others) {
        const auto labels = slips_of_pen(readings_, prior_.pack, others.left_out.front(), strips_);
        std::map<std::string, const Relabelling*> with;  // one label for each other strip of an exchange
        for (const auto& made : labels) with.try_emplace(made.with, &made);
        const std::vector<std::pair<std::string, const Relabelling*>> partners(with.begin(), with.end());
        std::vector<double> as_labelled(partners.size()), relabelled(labels.size());
        in_parallel(
            partners.size() + labels.size(),
            [&](std::size_t i) {
                if (i < partners.size())
                    as_labelled[i] = log_chance(*partners[i].second, false, others);
                else
                    relabelled[i - partners.size()] = log_chance(labels[i - partners.size()], true, others);
            },
            0);
        std::vector<std::pair<double, const Relabelling*>> order;
        for (std::size_t i = 0; i < labels.size(); ++i) {
            const auto own =
                std::ranges::find(partners, labels[i].with, &decltype(partners)::value_type::first);
            order.emplace_back(as_labelled[std::size_t(own - partners.begin())] - relabelled[i], &labels[i]);
        }
        std::ranges::stable_sort(order, {}, [](const auto& one) { return one.first; });
        std::size_t own = 0, exchanges = 0;
        std::erase_if(order, [&](const auto& one) {
            return one.second->is_swap ? exchanges++ >= kExchangesTried : own++ >= kOwnTried;
        });
        std::vector<std::optional<Explained>> explained(order.size());
        in_parallel(
            order.size(), [&](std::size_t i) { explained[i] = in_full(*order[i].second, others); }, 0);
        double farthest = std::numeric_limits<double>::infinity();
        for (std::size_t i = 0; i < order.size(); ++i) {
            const auto& [loss, made] = order[i];
            if (!explained[i] || (!made->is_swap && loss > farthest)) continue;
            if (!made->is_swap) farthest = std::min(farthest, loss + kWorse);
            explained_.push_back(std::move(*explained[i]));
        }
    }

    [[nodiscard]] double least_cost() const {
        double least = std::numeric_limits<double>::infinity();
        for (const auto& one : explained_) least = std::min(least, one.cost);
        return least;
    }

    void try_pairs(const Fitted& as_read) {
        std::vector<std::vector<std::string>> pairs;
        for (std::size_t a = 1; a < strips_.size(); ++a)
            for (std::size_t b = 0; b < a; ++b)
                if (!is_part_of(strips_[a], strips_[b]) && !is_part_of(strips_[b], strips_[a]))
                    pairs.push_back({strips_[a], strips_[b]});
        pairs = likeliest(std::move(pairs), kPairs, as_read);
        // Two wrong slips have pulled white and blank too far for the rest to find back from there.
        const auto start_for = [&](const auto& pair) {
            return is_slip(pair[0]) && is_slip(pair[1]) ? Eigen::VectorXd{} : as_read.mean;
        };
        for (const auto& others : without_each(pairs, start_for)) {
            if (!others || !others->agree || others->fit.cost > least_) continue;
            const auto& pair = others->left_out;
            for (const auto& made : slips_of_pen(readings_, prior_.pack, pair[0], std::span(&pair[1], 1)))
                if (auto explained = made.is_swap ? in_full(made, *others) : std::nullopt)
                    explained_.push_back(std::move(*explained));
        }
    }

    [[nodiscard]] bool is_slip(const std::string& strip) const {
        return std::ranges::none_of(readings_, [&](const Reading& reading) {
            const TreatedPatch patch = treated(reading, prior_.pack);
            return is_part_of(reading.strip, strip) && patch.exposure_s > 0 && patch.develop_s > 0;
        });
    }

    // Nothing where the label does not explain the strip.
    [[nodiscard]] std::optional<Explained> in_full(const Relabelling& made, const Others& others) const {
        const std::string& strip = others.left_out.front();
        const Readings readings = with_labels_of(made, readings_);
        const Fitted fit = Fitter(prior_, readings).fitted(errors_, others.fit.mean, kLabelSteps);
        if (!fit.usable() || fit.cost > least_) return std::nullopt;
        const double before =
            strip_rms(readings_, Predictor(prior_.pack, readings_).densities(others.paper), strip);
        const double after = strip_rms(readings, fit.densities, strip);
        if (after > kErrorLeft * before) return std::nullopt;
        return Explained{strip, made.words, made.is_swap, fit.cost, after, before};
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
        // Of two strips that contradict each other either may be the wrong one.
        const auto other = std::ranges::find_if(explained_, [&](const Explained& one) {
            return one.strip != first.strip && !one.is_swap && !is_part_of(one.strip, first.strip) &&
                   !is_part_of(first.strip, one.strip);
        });
        if (!first.is_swap && other != explained_.end() && other->cost < first.cost + kAlsoLikely)
            words += ", or of strip \"" + other->strip + "\" " + other->words;
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
