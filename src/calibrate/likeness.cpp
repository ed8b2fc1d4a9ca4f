// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "calibrate/likeness.hpp"

#include <map>

namespace fogproof {
namespace {

// How many neighbouring patches of a strip share one error of the law. Judgement.
constexpr double kAlike = 3;

// Strips named like the halves that strip_labels makes are one sheet, however far its halves were bleached.
struct Half {
    std::string sheet;
    bool is_half;
};
Half half_of(const std::string& label) {
    for (const std::string suffix : {"-before", "-bleached"})
        if (label.ends_with(suffix)) return {label.substr(0, label.size() - suffix.size()), true};
    return {label, false};
}

}  // namespace

Treatment treatment_of(const Patched& p) {
    return {p.filter.value_or(-9), p.restrainer_ml_l, p.develop_s, p.bleach_s, p.bleach_parts, p.redevelop_s};
}

Likeness::Likeness(std::span<const Reading> readings, const Pack& nominal) {
    std::map<std::tuple<std::string, bool, Treatment>, std::vector<Eigen::Index>> sheets;
    std::map<std::tuple<Treatment, double, double>, std::vector<Eigen::Index>> repeats;
    for (const Reading& reading : readings) {
        const Patched& patch = patches_.emplace_back(patched(reading, nominal));
        const auto at = Eigen::Index(patches_.size()) - 1;
        repeats[{treatment_of(patch), patch.exposure_s, patch.wedge_density}].push_back(at);
        if (patch.develop_s <= 0) continue;
        const auto [sheet, is_half] = half_of(reading.strip);
        Patched developed = patch;
        if (is_half) developed.bleach_s = developed.bleach_parts = developed.redevelop_s = 0;
        sheets[{sheet, is_half, treatment_of(developed)}].push_back(at);
    }
    const auto m = Eigen::Index(patches_.size());
    on_sheet_ = Eigen::MatrixXd::Zero(m, Eigen::Index(sheets.size()));
    Eigen::Index column = 0;
    for (const auto& [key, rows] : sheets) {
        for (const auto row : rows) on_sheet_(row, column) = 1;
        ++column;
    }
    same_patch_ = Eigen::MatrixXd::Zero(m, m);
    for (const auto& [key, rows] : repeats)
        for (const auto a : rows)
            for (const auto b : rows) same_patch_(a, b) = 1;
}

Eigen::MatrixXd Likeness::covariance(const Errors& errors) const {
    Eigen::MatrixXd all = kAlike * errors.law * errors.law * same_patch_ +
                          errors.sheet * errors.sheet * on_sheet_ * on_sheet_.transpose();
    all.diagonal().array() += errors.reading * errors.reading;
    return all;
}

}  // namespace fogproof
