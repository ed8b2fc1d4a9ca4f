// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One print: a negative projected onto a treated sheet, asked tone by tone. The two meet at the easel, in the
// light; what belongs to the negative and the enlarger lies before it, what belongs to the paper behind it.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "fogproof/enlarger/projection.hpp"
#include "fogproof/negative/tone.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/treated_sheet.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

class PrintModel {
  public:
    PrintModel(Projection projection, TreatedSheet sheet)
        : projection_(std::move(projection)), sheet_(std::move(sheet)) {}
    /// mean_transmitted: the frame's own mean of 10^(-Q Dn), spread by flare. A bath shows the print through
    /// it.
    PrintModel(const PaperModel& paper, const Enlarger& enlarger, const PrintSteps& steps,
               double mean_transmitted, std::optional<BathLayer> bath = std::nullopt)
        : projection_(enlarger, mean_transmitted, steps.exposures, steps.flashes),
          sheet_(paper, steps.develop, steps.finishing, bath) {}

    /// The same over several places: of each the levels of all masks there, one for each local work, and
    /// behind them its share of the fog of the sheet's edge, where the paper has such.
    PrintModel(const PaperModel& paper, const Enlarger& enlarger, const PrintSteps& steps,
               double mean_transmitted, std::span<const std::vector<double>> places,
               std::optional<BathLayer> bath = std::nullopt);

    [[nodiscard]] const Projection& projection() const { return projection_; }
    [[nodiscard]] const TreatedSheet& sheet() const { return sheet_; }

    /// A density of the negative where nothing is local, or at one of the projection's places.
    [[nodiscard]] Patch patch(NegativeDensity density, std::size_t place = 0) const {
        const EaselLight light = projection_.light(density, place);
        return place < on_sheet_.size() ? sheet_.lit(light, on_sheet_[place]) : sheet_.lit(light);
    }
    [[nodiscard]] Patch patch_of(const Tone& tone) const { return patch(tone.density, tone.place); }
    [[nodiscard]] Patch lit(EaselLight light) const { return sheet_.lit(light); }
    [[nodiscard]] Patch border() const { return sheet_.border(); }
    [[nodiscard]] Patch fixed_only() const { return sheet_.fixed_only(); }
    /// As TreatedSheet has it.
    [[nodiscard]] PrintModel for_many_patches() const {
        PrintModel quick = *this;
        quick.sheet_ = sheet_.for_many_patches();
        return quick;
    }

  private:
    Projection projection_;
    TreatedSheet sheet_;
    std::vector<PlaceOnSheet> on_sheet_;  // of every place; empty where nothing is local
};

}  // namespace fogproof::print
