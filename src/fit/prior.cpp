// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <cmath>
#include <set>

#include "fit/fitter.hpp"
#include "pack/schema.hpp"
#include "pack/uncertainty.hpp"

namespace fogproof::fit {
namespace {

constexpr double kSameGrade = 1e-9;
// A departure so small that no reading tells of it.
constexpr double kNone = 1e-6;

bool has_filter(const Pack& pack, double grade) {
    return std::ranges::any_of(pack.filters,
                               [&](const auto& f) { return std::abs(f.grade - grade) < kSameGrade; });
}

// Once one filter was read the others are better guessed from it than from the table, so all get their own.
std::vector<double> grades_to_add(const Pack& pack, std::span<const Reading> readings) {
    const std::vector<double> read = grades_read(pack, readings);
    if (read.empty()) return {};
    std::set<double> grades(read.begin(), read.end());
    if (pack.filters.empty()) grades.insert({0, 1, 2, 3, 4, 5});
    std::vector<double> added;
    for (const double grade : grades)
        if (!has_filter(pack, grade)) added.push_back(grade);
    return added;
}

}  // namespace

Prior prior_for(const Pack& before, std::span<const Reading> readings) {
    Prior prior{before, {}, {}, {}};
    const FilterPrior added = filter_prior(before, grades_to_add(before, readings));
    for (std::size_t i = 0; i < added.grades.size(); ++i)
        prior.pack.filters.push_back({added.grades[i], added.balance[i], added.speed[i]});
    std::ranges::sort(prior.pack.filters, {}, &PackFilter::grade);
    prior.unknowns = unknowns_of(prior.pack);
    const auto n = Eigen::Index(prior.unknowns.size());
    prior.mean.resize(n);
    prior.covariance = Eigen::MatrixXd::Zero(n, n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const Unknown& unknown = prior.unknowns[std::size_t(i)];
        const bool is_filter = unknown.name.starts_with("filter.");
        const double doubt = is_filter ? filter_deviation_of(prior.pack, unknown.name) : unknown.doubt;
        prior.mean[i] = unknown.prior;
        prior.covariance(i, i) = doubt * doubt;
    }
    // Filters that the pack did not have err together.
    const std::size_t k = added.grades.size();
    const auto place = [&](double grade, const char* key) {
        const std::string name = filter_number_name(PackFilter{grade, 0, 0}, key);
        return Eigen::Index(std::ranges::find(prior.unknowns, name, &Unknown::name) - prior.unknowns.begin());
    };
    for (std::size_t a = 0; a < k; ++a)
        for (std::size_t b = 0; b < k; ++b) {
            const double ga = added.grades[a], gb = added.grades[b];
            prior.covariance(place(ga, "balance"), place(gb, "balance")) =
                added.balance_covariance[a * k + b];
            prior.covariance(place(ga, "speed"), place(gb, "speed")) = added.speed_covariance[a * k + b];
        }
    for (Eigen::Index i = 0; i < n; ++i)
        prior.unknowns[std::size_t(i)].doubt = std::sqrt(prior.covariance(i, i));
    return prior;
}

void scale_departure(Prior& prior, double factor) {
    for (std::size_t i = 0; i < prior.unknowns.size(); ++i) {
        if (!prior.unknowns[i].is_departure) continue;
        prior.unknowns[i].doubt = factor * pack_number(prior.unknowns[i].name)->doubt;
        prior.covariance(Eigen::Index(i), Eigen::Index(i)) = std::pow(prior.unknowns[i].doubt, 2);
    }
}

Prior departing_as(Prior prior, const Eigen::VectorXd& place) {
    scale_departure(prior, kNone);
    for (std::size_t i = 0; i < prior.unknowns.size(); ++i)
        if (prior.unknowns[i].is_departure) prior.mean[Eigen::Index(i)] = place[Eigen::Index(i)];
    return prior;
}

}  // namespace fogproof::fit
