// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/deep_blacks.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/words.hpp"

namespace fogproof::fit {
namespace {

// D, beyond errors of the readings; and of the surface's light at the deepest of them, the part that the
// surface is taken to have (a black is never all surface). Judgement.
constexpr double kBeyond = 0.05, kOfBlack = 0.9;
constexpr std::size_t kWitnesses = 2;
constexpr const char* kSurfaceLight = "paper.surface_light";

}  // namespace

std::optional<std::string> deepen_surface(Pack& pack, std::span<const Reading> readings) {
    if (readings.size() < kWitnesses) return std::nullopt;
    std::vector<double> densities;
    for (const Reading& reading : readings) densities.push_back(reading.density);
    std::ranges::nth_element(densities, densities.begin() + (kWitnesses - 1), std::greater<>());
    const double deepest = densities[kWitnesses - 1], limit = -std::log10(pack.sheet.surface);
    if (deepest <= limit + kBeyond) return std::nullopt;
    const std::string was = fixed(limit, 2);
    pack.sheet.surface = kOfBlack * std::pow(10.0, -deepest);
    pack.knowledge[kSurfaceLight] = {Origin::assumed, {}};
    return "readings go down to " + fixed(deepest, 2) +
           " D, but the pack's surface is too matt for blacks deeper than " + was +
           " D: a glossier surface is taken; pack new --surface tells which it is";
}

void keep_stated_surface(FitRecord& record, const Pack& stated) {
    const auto number = std::ranges::find(record.numbers, kSurfaceLight, &FitRecord::Number::name);
    if (number == record.numbers.end()) return;
    number->prior = stated.sheet.surface;
    number->prior_knowledge = stated.known(kSurfaceLight);
}

}  // namespace fogproof::fit
