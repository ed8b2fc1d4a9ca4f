// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/written_lengths.hpp"

#include <utility>

#include "base/words.hpp"

namespace fogproof::base {

std::optional<std::vector<double>> millimetres_in(std::string_view text) {
    text = trimmed(text);
    double millimetres = 1;
    for (const auto& [unit, size] : {std::pair{"mm", 1.0}, {"cm", 10.0}, {"in", 25.4}})
        if (text.ends_with(unit)) {
            text.remove_suffix(2);
            millimetres = size;
            break;
        }
    std::vector<double> sides;
    for (const auto& side : split(text, 'x')) {
        const auto length = number_in(trimmed(side));
        if (!length) return std::nullopt;
        sides.push_back(*length * millimetres);
    }
    return sides;
}

}  // namespace fogproof::base
