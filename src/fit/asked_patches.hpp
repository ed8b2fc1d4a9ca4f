// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <span>
#include <utility>
#include <vector>

#include "fit/numbered.hpp"
#include "fit/treated_patch.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// The grade of a patch that had no light, or was lit without a filter.
inline constexpr double kNoGrade = -100;

/// The patches that a Predictor is asked of, and which of them have something in common that is worked out
/// once.
struct AskedPatches {
    AskedPatches(const Pack& nominal, std::span<const Reading>);

    std::vector<TreatedPatch> patches;
    std::vector<double> read;                             ///< densities
    std::vector<std::vector<std::size_t>> unknown_light;  ///< patches of one exposure that nobody told
    std::vector<std::size_t> light_of;  ///< for each patch which of these, or how many there are
    std::vector<std::size_t> alike;     ///< for each patch the first one exposed and developed like it
    std::vector<std::size_t> same;      ///< and the first one that is the same in all
    std::vector<double> passed;         ///< light that the wedge lets through
    double callier;                     ///< by which a negative does
    std::size_t different = 0;          ///< patches exposed and developed like none before
    Numbered<std::pair<double, double>> developments, baths;
    Numbered<double> grades;

    [[nodiscard]] bool is_lit(std::size_t i) const {
        return patches[i].exposure_s > 0 && patches[i].develop_s > 0;
    }
    /// Whether its exposure is told.
    [[nodiscard]] bool is_known(std::size_t i) const { return light_of[i] == unknown_light.size(); }
};

}  // namespace fogproof::fit
