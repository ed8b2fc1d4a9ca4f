// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/predicted_strip.hpp"

#include <algorithm>
#include <array>

#include "proof/panels.hpp"

namespace fogproof::proof {
namespace {

bool is_bleached(const PrintSteps& steps) {
    return steps.finishing.bleach_dose > 0 || std::ranges::any_of(steps.local, [](const LocalStep& step) {
               return step.kind == LocalWork::Kind::bleach;
           });
}

}  // namespace

PredictedStrip predicted_strip(const Printing& printing, const StartingPoint& point,
                               const TestStripPlace& place) {
    PredictedStrip predicted{place, test_strip(point.exposure_s), written_out(point, printing), {}};
    StripState developed, bleached{true, {}};
    for (const Seconds time : predicted.strip.exposures) {
        bleached.bands.push_back(printing.timed_proof(predicted.recipe, std::array{time}).steps);
        developed.bands.push_back(as_developed(bleached.bands.back()));
    }
    predicted.states.push_back(std::move(developed));
    if (is_bleached(bleached.bands.front())) predicted.states.push_back(std::move(bleached));
    return predicted;
}

}  // namespace fogproof::proof
