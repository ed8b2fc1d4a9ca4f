// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/fit_warnings.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "base/words.hpp"
#include "fit/contradiction.hpp"
#include "fit/fewer.hpp"
#include "fit/filter_order.hpp"
#include "fit/label_doubts.hpp"
#include "fit/left_out.hpp"
#include "fit/light_doubts.hpp"
#include "fit/lone_slips.hpp"
#include "fit/odd_repeats.hpp"
#include "fit/treated_patch.hpp"

namespace fogproof::fit {
namespace {

// ml/L; where the largest dose lies between, percent may have been typed. Smaller ones are doubted unfitted.
// A percent is ten ml in a litre.
constexpr double kLeastPercent = 0.5, kMostPercent = 10, kMlForPercent = 10;
// Readings are believed to mean percent when the cost falls by so much: as for other labels.
constexpr double kDecidedGain = 12;
constexpr int kWarningSteps = 40;
// The pace of a bath goes with its strength nearly in proportion. Where strips say so much else, in
// deviations of what was taken before any was read, a dilution is doubted rather than chemistry. Judgement.
constexpr double kOtherPace = 3;

std::optional<std::string> percent_meant(const Prior& prior, std::span<const Reading> all_readings,
                                         const ErrorSizes& errors, const Fitted& all) {
    double largest = 0;
    for (const auto& reading : all_readings) largest = std::max(largest, reading.restrainer_ml_l.value_or(0));
    if (largest < kLeastPercent || largest > kMostPercent) return std::nullopt;
    const auto readings = fewer_of(all_readings, prior.pack, kMany);
    std::vector<Reading> as_percent(readings.begin(), readings.end());
    for (auto& reading : as_percent)
        if (reading.restrainer_ml_l) *reading.restrainer_ml_l *= kMlForPercent;
    const Fitted as_read = Fitter(prior, readings).fitted(compared(errors), all.mean, kWarningSteps);
    const Fitted other = Fitter(prior, as_percent).fitted(compared(errors), {}, kWarningSteps);
    const auto usable = [](const Fitted& fit) {
        return fit.ending == Ending::converged || fit.ending == Ending::out_of_steps;
    };
    if (!usable(other) || (usable(as_read) && other.cost > as_read.cost - kDecidedGain)) return std::nullopt;
    return "restrainer " + decimal(largest, 3) + " ml/L fits the densities far worse than " +
           decimal(largest * kMlForPercent, 2) +
           " would, and all other doses with it; the unit is ml of stock in a litre of developer: " +
           decimal(largest * kMlForPercent, 2) + " for " + decimal(largest, 3) + " %";
}

std::optional<std::string> other_dilution_meant(const Prior& prior, std::span<const Reading> readings,
                                                const Fitted& all) {
    const auto unknown = std::ranges::find(prior.unknowns, "bleach.dilution_exponent", &Unknown::name);
    if (unknown == prior.unknowns.end() || unknown->prior_knowledge.origin != Origin::assumed)
        return std::nullopt;
    const auto at = Eigen::Index(unknown - prior.unknowns.begin());
    const double usual = prior.mean[at], doubt = std::sqrt(prior.covariance(at, at));
    if (std::abs(all.mean[at] - usual) <= kOtherPace * doubt) return std::nullopt;
    std::map<double, std::string> strips;  // one of each bath
    for (const Reading& reading : readings)
        if (const TreatedPatch patch = treated(reading, prior.pack); patch.bleach_s > 0)
            strips.emplace(patch.bleach_parts, reading.strip);
    std::string baths;
    for (const auto& [parts, strip] : strips)
        baths += (baths.empty() ? "" : ", ") + ("1+" + decimal(parts, 1)) + " (strip \"" + strip + "\")";
    return "the strips show the pace of the bleach go with the power " + fixed(all.mean[at], 2) +
           " of its strength; " + fixed(usual, 2) + " +/- " + fixed(doubt, 2) +
           " is usual: check the dilutions " + baths;
}

}  // namespace

std::vector<std::string> fit_warnings(const Prior& prior, std::span<const Reading> readings,
                                      const ErrorSizes& errors, const Fitted& all,
                                      std::span<const Contradiction> contradictions, bool is_sheet_stated) {
    std::vector<std::string> warnings = label_doubts(readings, prior.pack);
    for (auto& warning : odd_repeats(readings, prior.pack)) warnings.push_back(std::move(warning));
    if (const auto doubt = percent_meant(prior, readings, errors, all)) {
        warnings.push_back(*doubt);
        return warnings;
    }
    const bool is_explained =
        std::ranges::any_of(contradictions, [](const Contradiction& c) { return c.better.has_value(); });
    if (is_explained) return warnings;
    if (const auto doubt = other_dilution_meant(prior, readings, all)) warnings.push_back(*doubt);
    for (auto& warning : light_doubts(prior, readings, all)) warnings.push_back(std::move(warning));
    for (auto& warning : filters_out_of_order(prior, readings, all)) warnings.push_back(std::move(warning));
    for (auto& warning : lone_slips(readings, all.densities, prior.pack))
        warnings.push_back(std::move(warning));
    for (const auto& one : strips_out_of_line(all, readings, prior.pack, errors, is_sheet_stated))
        if (std::ranges::find(contradictions, one.strip, &Contradiction::strip) == contradictions.end())
            warnings.push_back("strip \"" + one.strip + "\" is " + fixed(one.rms, 2) +
                               " D off what the other strips say, " + fixed(one.sigmas, 1) +
                               " standard deviations, and no label tried explains it: check its labels, "
                               "and read it again");
    return warnings;
}

}  // namespace fogproof::fit
