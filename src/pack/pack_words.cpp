// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <array>

#include "pack/schema.hpp"

namespace fogproof::pack {
namespace {

const std::array<std::string, 2> kContrastWords{"graded", "variable"};
const std::array<std::string, 3> kSurfaceWords{"gloss", "semi-matt", "matt"};
const std::array<std::string, 4> kOriginWords{"assumed", "given", "measured", "partly-measured"};
const std::array<std::string, 3> kAgentWords{"unknown", "bromide", "benzotriazole"};
const std::array<std::string, 3> kHeadWords{"unknown", "diffuser", "condenser"};

}  // namespace

std::span<const std::string> contrast_words() {
    return kContrastWords;
}

std::span<const std::string> surface_words() {
    return kSurfaceWords;
}

std::span<const std::string> origin_words() {
    return kOriginWords;
}

std::optional<Origin> origin_of(std::string_view word) {
    if (word == "nudged") return Origin::partly_measured;  // in files of version 0.1.0
    const auto found = std::ranges::find(kOriginWords, word);
    if (found == kOriginWords.end()) return std::nullopt;
    return Origin(found - kOriginWords.begin());
}

std::span<const std::string> agent_words() {
    return kAgentWords;
}

std::span<const std::string> head_words() {
    return kHeadWords;
}

}  // namespace fogproof::pack
