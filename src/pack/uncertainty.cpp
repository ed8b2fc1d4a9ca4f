// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/uncertainty.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "fogproof/base/error.hpp"

namespace fogproof::pack {
namespace {

std::optional<std::vector<double>> answers_if_possible(const PackAnswers& answers, const Pack& pack) {
    try {
        return answers(pack);
    } catch (const Error&) {
        return std::nullopt;
    }
}

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
    if (name == "enlarger.callier") return head_defaults(pack.head).doubt;
    const bool is_of_agent =
        name == "restrainer.half_ml_l" || name == "restrainer.speed_loss" || name == "restrainer.fog_floor";
    if (is_of_agent && pack.restrainer_agent == RestrainerAgent::unknown) doubt *= kUnnamedAgent;
    const double usual = row.of(defaults), value = row.of(pack);
    return goes_by_factor(row) && usual > 0 && value > 0 ? doubt * value / usual : doubt;
}

double moved_number(const PackNumber& row, double value, double by) {
    if (!goes_by_factor(row) || value <= 0) return value + by;
    return by > 0 ? value + by : value / (1 - by / value);
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
    if (deviation <= 0 || !is_moved(pack, row)) return std::nullopt;
    const bool by_factor = goes_by_factor(row) && value > 0;
    const double factor = std::exp(kWithin95Percent * std::log1p(deviation / value)),
                 half = kWithin95Percent * deviation;
    return Within{std::clamp(by_factor ? value / factor : value - half, row.minimum, row.maximum),
                  std::clamp(by_factor ? value * factor : value + half, row.minimum, row.maximum)};
}

void put_doubtful(Pack& pack, const PackNumber& row, double value) {
    value = std::clamp(value, row.minimum, row.maximum);
    if (row.name() == kReciprocity && pack.anchored && pack.fit.numbers.empty())
        pack.speed_log_s *= value / pack.enlarger.reciprocity;
    row.in(pack) = value;
}

bool is_moved(const Pack& pack, const PackNumber& row) {
    if (row.section == "scatter" || (row.section == "speed" && !pack.anchored)) return false;
    return applies(pack, row);
}

double unexplained_scatter(const Pack& pack) {
    return std::hypot(pack.law_scatter, pack.sheet_scatter);
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

std::vector<Change> changes(const PackAnswers& answers, const Pack& pack) {
    const std::vector<double> middle = answers(pack);
    std::vector<Change> all;
    const auto add = [&](const std::string& name, const auto& moved) {
        const auto less = answers_if_possible(answers, moved(-1)),
                   more = answers_if_possible(answers, moved(1));
        Change change{name, std::vector<double>(middle.size())};
        for (std::size_t i = 0; i < middle.size(); ++i) {
            // Both sides where both exist; otherwise the whole of the one there is.
            const double down = less ? middle[i] - (*less)[i] : 0;
            const double up = more ? (*more)[i] - middle[i] : 0;
            change.by[i] = less && more ? (down + up) / 2 : down + up;
        }
        all.push_back(std::move(change));
    };
    for (const auto& row : pack_numbers()) {
        const double deviation = deviation_of(pack, row);
        if (deviation <= 0 || !is_moved(pack, row)) continue;
        add(row.name(), [&](int way) {
            Pack other = pack;
            put_doubtful(other, row, moved_number(row, row.of(pack), way * deviation));
            return other;
        });
    }
    for (std::size_t i = 0; i < pack.filters.size(); ++i)
        for (const auto& row : filter_numbers()) {
            const std::string name = filter_number_name(pack.filters[i], row.key);
            const double deviation = filter_deviation_of(pack, name);
            if (deviation <= 0 || row.key == "grade") continue;
            add(name, [&](int way) {
                Pack other = pack;
                row.in(other.filters[i]) =
                    std::clamp(row.of(pack.filters[i]) + way * deviation, row.minimum, row.maximum);
                return other;
            });
        }
    return all;
}

std::vector<double> deviations(const PackAnswers& answers, const Pack& pack) {
    const std::vector<Change> all = changes(answers, pack);
    std::vector<double> variance(all.empty() ? answers(pack).size() : all.front().by.size());
    for (std::size_t a = 0; a < all.size(); ++a)
        for (std::size_t b = 0; b <= a; ++b) {
            const double together = correlation(pack.fit, all[a].name, all[b].name) * (a == b ? 1 : 2);
            if (together == 0) continue;
            for (std::size_t i = 0; i < variance.size(); ++i)
                variance[i] += together * all[a].by[i] * all[b].by[i];
        }
    for (double& v : variance) v = std::sqrt(std::max(v, 0.0));
    return variance;
}

}  // namespace fogproof::pack
