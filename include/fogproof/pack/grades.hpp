// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From a grade number to the light that a filter passes.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "fogproof/enlarger/enlarger.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// Grade of an exposure without a filter on variable-contrast paper, by trade habit (common practice, no
/// source).
inline constexpr double kUnfilteredGrade = 2;

/// ISO range in the middle of a grade's limits, linear between grades 0 to 5; below 0 on to 180 at filter 00
/// (-1). Limits: 0 1.40-1.70; 1 1.15-1.40; 2 0.95-1.15; 3 0.80-0.95; 4 0.65-0.80; 5 0.50-0.65 (ANSI
/// PH2.2-1966, inner limits from memory; ends 0.50 and 1.70 from the Focal Encyclopedia of Photography, p.
/// 679).
[[nodiscard]] double iso_range_of_grade(double grade);
/// The inverse of grades 0 to 5, clamped to them.
[[nodiscard]] double grade_of_iso_range(double iso_range);

/// The whole grades that the pack offers, softest first: its own filters, or 0 to 5 as far as the emulsion
/// reaches (00 is taken where it is asked for, not offered unless it is among the pack's filters), or the
/// middle of its reach where no whole grade lies within: there is always one. A graded paper has one, the
/// number whose limits hold the range that was told of it, whatever a fit then found; an emulsion that lies
/// wholly beyond the table counts as the nearest end of it.
[[nodiscard]] std::vector<double> grades_of(const Pack&, const PaperModel&);

/// The filter for a grade, fractions allowed, scaled so that the fog-free 0.60 speed point stays where it is
/// (plus the pack's own speed offset). Between two filters of the pack balance and speed go in proportion. A
/// fit's filters begin with 0 where 00 was never read; then 00 is as much softer than 0 as the standard's.
/// Throws Error(Fault::usage) naming the range the pack has.
[[nodiscard]] Filter filter_for(const Pack&, const PaperModel&, double grade);

/// The filters of one pack for callers who want many: what all grades share is worked out once. With a table
/// (that serves the paper's grains) quicker, and within 1e-6 in log exposure.
class FilterSet {
  public:
    FilterSet(const Pack&, const PaperModel&, std::shared_ptr<const ShareTable> = {});
    ~FilterSet();
    /// As filter_for(); sooner where a filter close to it is known.
    [[nodiscard]] Filter at(double grade, std::optional<Filter> about = std::nullopt) const;
    /// Whether at() has it.
    [[nodiscard]] bool has(double grade) const;
    /// The same, the nearest filter there is where the grade lies beyond them: for packs that somebody's pack
    /// may be.
    [[nodiscard]] Filter nearest(double grade, std::optional<Filter> about = std::nullopt) const;
    /// log10 exposure through a filter, over the threshold of the grains, at which this share of them is
    /// developable; sooner where an exposure close to it is known.
    [[nodiscard]] double log_exposure(const Filter&, double share,
                                      std::optional<double> about = std::nullopt) const;

  private:
    struct Shared;
    std::unique_ptr<const Shared> shared_;
};

}  // namespace fogproof::pack
