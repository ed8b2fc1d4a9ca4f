// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Ways of developing that readings of a pack know, and how far from them another lies. The laws of restrainer
// and time, with all their doubts, say less of doses and times that nobody read than papers of other laws
// show.
#pragma once

#include <optional>
#include <vector>

#include "choose/recipe_search.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// log10 of the exposure by which a way of developing may depart from the laws for each doubling of its dose
/// or time from what was read, one standard deviation. Judgement: of a dozen papers of other laws, recipes at
/// doses nobody read came out a quarter further off than was told without it.
inline constexpr double kPerDoubling = 0.08;

class ReadWays {
  public:
    /// Of exposed and developed patches among the pack's readings.
    explicit ReadWays(const Pack&);
    /// Doublings from the nearest that was read; a dose counts from 5 ml/L, below which it does little, and
    /// beyond two doublings nothing is added. 0 where nothing was read: then the laws' own doubts are wide.
    [[nodiscard]] double doublings_from(double restrainer_ml_l, double develop_s) const;
    /// Each filter with the baths that it was read in, one by one, where they lie within the bounds from end
    /// to end.
    [[nodiscard]] std::vector<SearchBounds> within(const SearchBounds&) const;

  private:
    struct Way {
        std::optional<double> filter;
        double restrainer_ml_l, develop_s;
        friend auto operator<=>(const Way&, const Way&) = default;
    };
    double nominal_s_;
    std::vector<Way> ways_;
};

}  // namespace fogproof::choose
