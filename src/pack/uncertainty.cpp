// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/pack/uncertainty.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "fogproof/base/error.hpp"

namespace fogproof {
namespace {

std::optional<std::vector<double>> answers_if_possible(const PackAnswers& answers, const Pack& pack) {
    try {
        return answers(pack);
    } catch (const Error&) {
        return std::nullopt;
    }
}

bool counts(const Pack& pack, const PackNumber& row) {
    if (row.section == "speed" && !pack.anchored) return false;
    return row.name() != "paper.iso_range" || pack.contrast == Contrast::graded;
}

}  // namespace

double deviation_of(const Pack& pack, const PackNumber& row) {
    const Knowledge known = pack.known(row.name());
    if (known.deviation) return *known.deviation;
    return known.origin == Origin::assumed ? row.doubt : 0;
}

std::vector<double> deviations(const PackAnswers& answers, const Pack& pack) {
    const std::vector<double> middle = answers(pack);
    std::vector<double> variance(middle.size());
    for (const auto& row : pack_numbers()) {
        const double deviation = deviation_of(pack, row);
        if (deviation <= 0 || !counts(pack, row)) continue;
        const auto moved = [&](double by) {
            Pack other = pack;
            row.in(other) = std::clamp(row.of(pack) + by, row.minimum, row.maximum);
            return answers_if_possible(answers, other);
        };
        const auto less = moved(-deviation), more = moved(deviation);
        for (std::size_t i = 0; i < middle.size(); ++i) {
            // Both sides where both exist; otherwise the whole of the one there is.
            const double down = less ? middle[i] - (*less)[i] : 0;
            const double up = more ? (*more)[i] - middle[i] : 0;
            const double change = less && more ? (down + up) / 2 : down + up;
            variance[i] += change * change;
        }
    }
    for (double& v : variance) v = std::sqrt(v);
    return variance;
}

}  // namespace fogproof
