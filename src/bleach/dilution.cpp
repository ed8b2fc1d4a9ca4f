// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "bleach/dilution.hpp"

#include "base/words.hpp"

namespace fogproof::bleach {

std::optional<double> dilution_parts(std::string_view text) {
    text = trimmed(text);
    if (const auto plus = text.find('+'); plus != std::string_view::npos && plus > 0) {
        const auto stock = number_in(text.substr(0, plus));
        if (!stock || *stock != 1) return std::nullopt;
        text.remove_prefix(plus + 1);
    }
    return number_in(text);
}

}  // namespace fogproof::bleach
