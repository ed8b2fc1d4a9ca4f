// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/uncertainty.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace fogproof::pack {
namespace {

// Share of the doubt of a default that is left where the owner states a value without a deviation: a label
// tells of its day, an eye of its lamp. Judgement.
constexpr double kStatedShare = 1.0 / 3;
// D; of a density that somebody measured or states without saying how well. Common practice, no source.
constexpr double kStatedDensity = 0.02;
// log10; of a filter that the owner measured without saying how well. Judgement.
constexpr double kStatedFilter = 0.05;
// By how much more an agent that nobody names leaves open. Judgement.
constexpr double kUnnamedAgent = 1.4;
constexpr std::string_view kReciprocity = "enlarger.reciprocity";

// The doubt of a value that is merely assumed.
double assumed_doubt(const Pack& pack, const PackNumber& row) {
    static const Pack defaults;
    const std::string name = row.name();
    double doubt = row.doubt;
    if (name == "enlarger.callier") return head_defaults(pack.darkroom.head).doubt;
    const bool is_of_agent =
        name == "restrainer.half_ml_l" || name == "restrainer.speed_loss" || name == "restrainer.fog_floor";
    if (is_of_agent && pack.darkroom.restrainer_agent == RestrainerAgent::unknown) doubt *= kUnnamedAgent;
    const double usual = row.of(defaults), value = row.of(pack);
    return goes_by_factor(row) && usual > 0 && value > 0 ? doubt * value / usual : doubt;
}

}  // namespace

double deviation_of(const Pack& pack, const PackNumber& row) {
    const Knowledge known = pack.known(row.name());
    if (known.deviation) return *known.deviation;
    const double assumed = assumed_doubt(pack, row);
    if (known.origin == Origin::assumed) return assumed;
    return row.unit == "D" && !goes_by_factor(row) ? std::min(kStatedDensity, assumed)
                                                   : kStatedShare * assumed;
}

double filter_deviation_of(const Pack& pack, const std::string& name) {
    return pack.known(name).deviation.value_or(kStatedFilter);
}

std::optional<Within> within_95_percent(const Pack& pack, const PackNumber& row) {
    const double deviation = deviation_of(pack, row), value = row.of(pack);
    const bool is_told = row.section == kEdgeFogSection || is_of_toner(row);
    const bool is_doubted = is_told ? applies(pack, row) : is_moved(pack, row);
    if (deviation <= 0 || !is_doubted) return std::nullopt;
    const bool by_factor = goes_by_factor(row) && value > 0;
    const double factor = std::exp(kWithin95Percent * std::log1p(deviation / value)),
                 half = kWithin95Percent * deviation;
    return Within{std::clamp(by_factor ? value / factor : value - half, row.minimum, row.maximum),
                  std::clamp(by_factor ? value * factor : value + half, row.minimum, row.maximum)};
}

PutDoubtful putting_for(const Pack& pack) {
    if (!pack.fit.numbers.empty() || !pack.darkroom.anchored)
        return [](Pack& other, const PackNumber& row, double value) {
            row.in(other) = std::clamp(value, row.minimum, row.maximum);
        };
    return [](Pack& other, const PackNumber& row, double value) {
        value = std::clamp(value, row.minimum, row.maximum);
        if (row.name() == kReciprocity) other.speed_log_s *= value / other.darkroom.enlarger.reciprocity;
        row.in(other) = value;
    };
}

bool is_moved(const Pack& pack, const PackNumber& row) {
    // Answers are those of the middle of the sheet.
    if (row.section == kEdgeFogSection) return false;
    // Lightness hardly depends on what else is told of a toner.
    if (is_of_toner(row)) return row.key == "covering";
    if (row.section == "scatter" || (row.section == "speed" && !pack.darkroom.anchored)) return false;
    return applies(pack, row);
}

double unexplained_scatter(const Pack& pack, double rise) {
    return std::hypot(pack.law_scatter, pack.sheet_scatter, kSheetInLight * rise * pack.sheet_scatter);
}

double correlation(const FitRecord& fit, const std::string& a, const std::string& b) {
    if (a == b) return 1;
    const auto place = [&](const std::string& name) {
        const auto found = std::ranges::find(fit.numbers, name, &FitRecord::Number::name);
        return std::size_t(found - fit.numbers.begin());
    };
    const std::size_t i = place(a), j = place(b);
    return i < fit.numbers.size() && j < fit.numbers.size() ? fit.correlated(i, j) : 0;
}

}  // namespace fogproof::pack
