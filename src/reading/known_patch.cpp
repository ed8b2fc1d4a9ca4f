// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/known_patch.hpp"

#include <array>

#include "base/words.hpp"

namespace fogproof::reading {
namespace {

constexpr double kDensestKnown = 4;

// 95 % of slips only fixed lie between 0.06 and 0.11, of fresh white papers between 0.04 and 0.10: judgement,
// no source. A grey card reflects 18 %, density 0.745 (common practice, no source); what cards and their
// handling differ by is judgement.
constexpr std::array kUsual{
    UsualPatch{"fixed", 0.085, 0.0125, "a slip of old paper that was only fixed, 0.06 to 0.11"},
    UsualPatch{"fresh-white", 0.07, 0.015, "white of fresh paper that was only fixed, 0.04 to 0.10"},
    UsualPatch{"grey-card", 0.745, 0.02, "a photographer's grey card of 18 %, 0.71 to 0.78"}};

}  // namespace

std::span<const UsualPatch> usual_patches() {
    return kUsual;
}

std::optional<KnownPatch> known_density_in(std::string_view text) {
    for (const UsualPatch& usual : kUsual)
        if (text == usual.word) return KnownPatch{{}, usual.density, usual.doubt, 0, usual.word};
    const auto density = number_in(text);
    if (!density || *density < 0 || *density > kDensestKnown) return std::nullopt;
    return KnownPatch{{}, *density, 0, 0, {}};
}

std::string known_densities_allowed() {
    std::string words = "a density from 0 to " + decimal(kDensestKnown, 0);
    for (const UsualPatch& usual : kUsual) words += std::string(", ") + usual.word;
    return words;
}

std::string words_of(const KnownPatch& known) {
    return (known.what.empty() ? "" : known.what + " ") + fixed(known.density, 2);
}

}  // namespace fogproof::reading
