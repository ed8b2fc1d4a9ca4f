// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "print/toner_words.hpp"

#include <algorithm>
#include <span>
#include <vector>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"

namespace fogproof::print {

Toner toner_told(std::string_view text, const std::string& place) {
    const std::string_view word = trimmed(text);
    const auto known = std::ranges::find(kTonerNames, word);
    if (known != kTonerNames.end()) return Toner(known - kTonerNames.begin());
    const std::vector<std::string> names(kTonerNames.begin(), kTonerNames.end());
    const auto near = nearest_word(std::string(word), names);
    throw Error(Fault::usage, place,
                "\"" + std::string(word) + "\" is no toner" + (near ? ", perhaps " + *near : ""),
                listed(names));
}

std::string toner_name(Toner toner) {
    return std::string(kTonerNames[std::size_t(toner)]);
}

}  // namespace fogproof::print
