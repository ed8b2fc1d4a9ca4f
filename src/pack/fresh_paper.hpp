// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The fog-free paper under light of one colour: what a filter of some balance makes of its contrast, and how
// strong its light must be to keep the speed point.
#pragma once

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "pack/fresh_curve.hpp"

namespace fogproof::pack {

class FreshPaper {
  public:
    explicit FreshPaper(const PaperModel&);
    /// The same with a population of its grains that somebody has at hand already.
    FreshPaper(const PaperModel&, GrainPopulation);
    FreshPaper(const PaperModel&, GrainPopulation, const ReferenceShares&);

    [[nodiscard]] double range(double balance) const;
    /// Under blue light alone, and under green light alone.
    [[nodiscard]] double hardest_range() const;
    [[nodiscard]] double softest_range() const;
    [[nodiscard]] double balance_for(double iso_range) const;
    /// The same, found sooner where a balance close to it is known.
    [[nodiscard]] double balance_for(double iso_range, double about) const;
    /// The light of a balance, scaled so that the 0.60 speed point lies where the pack has it, `faster` log10
    /// exposure before it.
    [[nodiscard]] Filter filter(double balance, double faster) const;
    /// log10 exposure at which a share of the grains is developable, nominally developed.
    [[nodiscard]] double exposure(const Filter& light, double share) const;
    /// The same, found sooner where an exposure close to it is known.
    [[nodiscard]] double exposure(const Filter& light, double share, double about) const;

  private:
    // The search begins at `about` and ends when the place is known to `apart`, both log10.
    [[nodiscard]] double balance_near(double iso_range, double about, double apart) const;
    [[nodiscard]] double exposure_near(const FilteredGrains&, double share, double about, double apart) const;
    [[nodiscard]] double reach() const;

    Grains grains_;
    GrainPopulation population_;
    ReferenceShares at_;
    double speed_;
};

}  // namespace fogproof::pack
