// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/filter_order.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "base/words.hpp"
#include "fit/slips_of_pen.hpp"
#include "fit/stated_densities.hpp"
#include "fit/treated_patch.hpp"
#include "pack/grade_words.hpp"
#include "pack/schema.hpp"

namespace fogproof::fit {
namespace {

// An order is doubted that is turned round by more than so many standard deviations. Judgement.
constexpr double kSurely = 3;
constexpr std::size_t kStripsNamed = 4;

struct ReadFilter {
    Eigen::Index balance;  // which of the unknowns
    std::vector<std::string> strips;
};

std::map<double, ReadFilter> filters_lit(const Prior& prior, std::span<const Reading> readings) {
    std::map<double, ReadFilter> filters;
    for (const Reading& reading : readings) {
        const TreatedPatch patch = treated(reading, prior.pack);
        if (is_stated_density(reading) || !patch.filter || patch.exposure_s <= 0 || patch.develop_s <= 0)
            continue;
        const auto filter = std::ranges::find(prior.pack.filters, *patch.filter, &PackFilter::grade);
        if (filter == prior.pack.filters.end()) continue;
        const auto unknown =
            std::ranges::find(prior.unknowns, filter_number_name(*filter, "balance"), &Unknown::name);
        if (unknown == prior.unknowns.end()) continue;
        ReadFilter& read = filters[*patch.filter];
        read.balance = unknown - prior.unknowns.begin();
        if (std::ranges::find(read.strips, reading.strip) == read.strips.end())
            read.strips.push_back(reading.strip);
    }
    return filters;
}

std::string strips_named(const std::vector<std::string>& strips) {
    std::string words;
    for (std::size_t i = 0; i < std::min(strips.size(), kStripsNamed); ++i)
        words += (i == 0 ? "\"" : ", \"") + strips[i] + "\"";
    if (strips.size() > kStripsNamed)
        words += " and " + std::to_string(strips.size() - kStripsNamed) + " more";
    return words;
}

}  // namespace

std::vector<std::string> filters_out_of_order(const Prior& prior, std::span<const Reading> readings,
                                              const Fitted& fit) {
    const auto filters = filters_lit(prior, readings);
    std::vector<std::string> warnings;
    for (auto hard = filters.begin(); hard != filters.end(); ++hard)
        for (auto soft = filters.begin(); soft != hard; ++soft) {
            // More green over blue light is softer.
            const auto a = hard->second.balance, b = soft->second.balance;
            const double off = fit.mean[a] - fit.mean[b];
            const double variance = fit.covariance(a, a) + fit.covariance(b, b) - 2 * fit.covariance(a, b);
            if (off <= kSurely * std::sqrt(std::max(variance, 0.0))) continue;
            warnings.push_back("filter " + grade_name(hard->first) + " fits as softer than filter " +
                               grade_name(soft->first) +
                               ", which no filter set does: were the filters of their strips exchanged? " +
                               grade_name(soft->first) + " is given for " +
                               strips_named(soft->second.strips) + ", " + grade_name(hard->first) + " for " +
                               strips_named(hard->second.strips));
        }
    return warnings;
}

}  // namespace fogproof::fit
