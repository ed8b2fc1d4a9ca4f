// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A sheet of one paper under one treatment, from the light at the easel on: what every light becomes.
#pragma once

#include <optional>

#include "fogproof/print/silver_path.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// One tone of the finished print.
struct Patch {
    FinishedSilver silver;
    PrintDensity density;  ///< visual
    Lab lab;               ///< D50, against the perfect diffuser
};

/// What one place of a sheet has beside its treatment.
struct PlaceOnSheet {
    double dose = 0;  ///< of bleach, as bleach_dose() gives it
    double fog = 0;   ///< share of the grains there that develop without light and would not elsewhere
};

/// Share of the grains that develop where light reaches one share and more fog another, one regardless of the
/// other.
[[nodiscard]] inline double with_more_fog(double exposed_share, double more_fog) {
    return 1 - (1 - exposed_share) * (1 - more_fog);
}

class TreatedSheet {
  public:
    /// A bath shows the print through it.
    TreatedSheet(const PaperModel&, const DevelopStep&, const Finishing& = {},
                 std::optional<BathLayer> bath = std::nullopt);

    /// Any light at the easel.
    [[nodiscard]] Patch lit(EaselLight light) const { return with_share(exposed_share(light)); }
    [[nodiscard]] Patch lit(EaselLight light, const PlaceOnSheet& place) const {
        return with_share(with_more_fog(exposed_share(light), place.fog), place.dose);
    }
    /// What a place has that gets a share of the fog which the sheet's edge has more than its middle.
    [[nodiscard]] double more_fog(double level) const { return developer_.more_fog(level); }
    /// Share of the grains that a light makes developable.
    [[nodiscard]] double exposed_share(EaselLight) const;
    /// Where such a share of the grains is developable; with so much bleach more than the sheet gets.
    [[nodiscard]] Patch with_share(double share, double more_dose = 0) const;
    /// The density of lit() alone, as Sheet::quick_density gives it.
    [[nodiscard]] PrintDensity quick_density(EaselLight light, const PlaceOnSheet& place) const;
    /// Under the easel blades: developed, bleached, never exposed.
    [[nodiscard]] Patch border() const { return lit({}); }
    /// The same at a place of the sheet.
    [[nodiscard]] Patch border(const PlaceOnSheet& place) const { return lit({}, place); }
    /// The same sheet only fixed.
    [[nodiscard]] Patch fixed_only() const { return seen({}); }
    /// The same for whoever asks for many patches: shares of grains out of a table, which errs by less than
    /// 1e-8 of them.
    [[nodiscard]] TreatedSheet for_many_patches() const;

  private:
    [[nodiscard]] FinishedSilver silver(double share, double more_dose) const;
    [[nodiscard]] Patch seen(const FinishedSilver&) const;

    PaperModel paper_;
    DevelopStep develop_;
    Finishing finishing_;
    std::optional<BathLayer> bath_;
    Developer developer_;
};

}  // namespace fogproof::print
