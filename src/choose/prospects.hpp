// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What may become of recipes with everything in doubt that is in doubt: each is carried out, as told, on many
// papers that the pack may be, the same for all recipes.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "choose/drawn_paper.hpp"
#include "fogproof/print/working_curve.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// rms L* from what is wanted.
struct Prospect {
    Interval first_sheet;                                ///< exposed and bleached as told: expected, and 95 %
    std::array<double, kStripSteps.size()> after_strip;  ///< expected, by the steps of the strip
};

/// By what recipes are ranked: halfway between the first sheet as told and the sheet after a test strip in
/// thirds of a stop. By the first alone a pack whose seconds nobody knows would be printed softer, to be
/// never far off; by the second alone nobody would mind filters whose speed nobody tested. Judgement.
[[nodiscard]] double rank(const Prospect&);

/// How roughly times are known, one standard deviation in log10 seconds.
struct TimeDoubt {
    double exposure;  ///< whose print comes closest to what is wanted
    double bleach;    ///< that reaches the same share of the clearing dose
};

/// Half the 95 % interval of the fresh print's L*, at the thin end, in the middle and at the dense end of the
/// frame: the lights stand on a toe that lies under the fog, where nobody can read it.
struct TargetDoubt {
    double darks = 0, middle = 0, lights = 0;
};

/// A place on the paper: behind a tone of the negative, or behind a density laid on the paper.
struct LitPlace {
    NegativeDensity density;
    bool negative;
};

class Prospects {
  public:
    /// By so many draws of one set (draws_of()), what is wanted gathered() to so many tones.
    Prospects(const Printing&, const Wanted&, std::size_t draws, std::uint64_t set, std::size_t tones = 40);

    [[nodiscard]] std::size_t draws() const { return papers_.size(); }
    /// Of each recipe, in order, by the first so many draws.
    [[nodiscard]] std::vector<Prospect> of(std::span<const ToldRecipe>, std::size_t draws);
    /// The same with the times' doubts; `shares` are those of the clearing dose,
    /// nothing where there is nothing to clear.
    struct Told {
        Prospect prospect;
        TimeDoubt times;
    };
    [[nodiscard]] std::vector<Told> told(std::span<const ToldRecipe>,
                                         std::span<const std::optional<double>> shares);
    [[nodiscard]] TargetDoubt target() const;
    /// rms L* of the first sheet, by draw.
    [[nodiscard]] std::vector<double> first_sheets(const ToldRecipe&);

    /// L* by which the tones of a print miss what is wanted, by draw; on the likeliest paper; the share of
    /// all that each counts.
    [[nodiscard]] std::vector<std::vector<double>> misses(const ToldRecipe&);
    [[nodiscard]] std::vector<double> likely_misses(const ToldRecipe&);
    [[nodiscard]] const std::vector<double>& shares() const { return likely_.wanted().share; }
    /// Print densities at places, by draw.
    [[nodiscard]] std::vector<std::vector<double>> densities(const ToldRecipe&, std::span<const LitPlace>);

  private:
    // By draw, then by recipe.
    [[nodiscard]] std::vector<std::vector<Outcome>> outcomes(std::span<const ToldRecipe>, std::size_t draws);

    const Printing& printing_;
    ReadWays read_;
    DrawnPaper likely_;
    std::vector<std::unique_ptr<DrawnPaper>> papers_;
};

}  // namespace fogproof::choose
