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

double moved_number(const PackNumber& row, double value, double by) {
    if (!goes_by_factor(row) || value <= 0) return value + by;
    return by > 0 ? value + by : value / (1 - by / value);
}

}  // namespace

double assumed_doubt(const PackNumber& row, double value) {
    static const Pack defaults;
    const double usual = row.of(defaults);
    return goes_by_factor(row) && usual > 0 && value > 0 ? row.doubt * value / usual : row.doubt;
}

double deviation_of(const Pack& pack, const PackNumber& row) {
    const Knowledge known = pack.known(row.name());
    if (known.deviation) return *known.deviation;
    return known.origin == Origin::assumed ? assumed_doubt(row, row.of(pack)) : 0;
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
            row.in(other) =
                std::clamp(moved_number(row, row.of(pack), way * deviation), row.minimum, row.maximum);
            return other;
        });
    }
    for (std::size_t i = 0; i < pack.filters.size(); ++i)
        for (const auto& row : filter_numbers()) {
            const std::string name = filter_number_name(pack.filters[i], row.key);
            const auto deviation = pack.known(name).deviation;
            if (!deviation || row.key == "grade") continue;
            add(name, [&](int way) {
                Pack other = pack;
                row.in(other.filters[i]) =
                    std::clamp(row.of(pack.filters[i]) + way * *deviation, row.minimum, row.maximum);
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
