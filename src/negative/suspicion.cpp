// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/negative/suspicion.hpp"

#include "fogproof/base/words.hpp"

namespace fogproof {
namespace {

// Base + fog of black-and-white film: about 0.1 on clear sheet and roll film to 0.4 on the grey base of 35
// mm. Common practice, no source.
constexpr double kDensestBase = 0.5;

}  // namespace

std::optional<std::string> dense_base(NegativeDensity base_and_fog) {
    if (base_and_fog.value <= kDensestBase) return std::nullopt;
    return "the clear film edge has density " + fixed(base_and_fog.value, 2) +
           " in the scan, and base + fog is seldom above " + fixed(kDensestBase, 1) +
           ": either the film is fogged or stained, or the codes of the scan are read by the wrong "
           "encoding, and then every exposure and the contrast come out wrong; --encoding settles it, or "
           "--clear with this edge if it is right";
}

}  // namespace fogproof
