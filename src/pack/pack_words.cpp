// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <array>

#include "pack/schema.hpp"

namespace fogproof::pack {
namespace {

const std::array<std::string, 2> kContrastWords{"graded", "variable"};
const std::array<std::string, 3> kSurfaceWords{"gloss", "semi-matt", "matt"};
const std::array<std::string, 4> kOriginWords{"assumed", "given", "measured", "nudged"};
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

std::span<const std::string> agent_words() {
    return kAgentWords;
}

std::span<const std::string> head_words() {
    return kHeadWords;
}

}  // namespace fogproof::pack
