// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// L* of prints by the thousand: what all recipes on one pack share is computed once and tabulated.
// A tone's L* depends on the light only through the share of grains it reaches, on grade and development only
// through the silver, and on the bleach only through silver and dose.
#pragma once

#include <cstddef>
#include <vector>

#include "fogproof/emulsion/emulsion.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// Share of grains made developable against log10 exposure over the emulsion's threshold, through one filter.
class ShareCurve {
  public:
    static constexpr double kFine = 60, kCoarse = 16;  ///< entries in a unit of log10

    ShareCurve(const GrainPopulation&, const Filter&, double per_unit = kFine);
    [[nodiscard]] double operator()(double log_over_threshold) const;

  private:
    double per_unit_;
    std::vector<double> share_;
};

/// L* of silver that was developed, then bleached by a dose, then toned for the usual time. Within 0.05 L* of
/// the model; coarse, for one of many draws, within 0.3. Doses beyond the most, which somebody may decide,
/// are reckoned when they are asked for.
class BleachedLightness {
  public:
    struct Nodes {
        std::size_t silver, doses;
    };
    static constexpr Nodes kFine{160, 40}, kCoarse{60, 16};

    BleachedLightness(const PaperModel&, double most_silver, double most_dose, Toner, Nodes nodes = kFine);
    /// The table's row at one dose, for many tones of one print.
    [[nodiscard]] std::vector<double> at_dose(double dose) const;
    [[nodiscard]] double lightness(const std::vector<double>& row, double silver) const;

  private:
    [[nodiscard]] std::vector<double> reckoned(double dose) const;

    PaperModel paper_;
    double most_silver_, most_dose_;
    Toner toner_;
    Nodes nodes_;
    std::vector<double> table_;  // dose by dose, each over silver
};

}  // namespace fogproof::choose
