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

class TreatedSheet {
  public:
    /// A bath shows the print through it.
    TreatedSheet(const PaperModel&, const DevelopStep&, const Finishing& = {},
                 std::optional<BathLayer> bath = std::nullopt);

    /// Any light at the easel.
    [[nodiscard]] Patch lit(EaselLight) const;
    /// Under the easel blades: developed, bleached, never exposed.
    [[nodiscard]] Patch border() const { return lit({}); }
    /// The same sheet only fixed.
    [[nodiscard]] Patch fixed_only() const { return seen({}); }
    /// The same for whoever asks for many patches: shares of grains out of a table, which errs by less than
    /// 1e-8 of them.
    [[nodiscard]] TreatedSheet for_many_patches() const;

  private:
    [[nodiscard]] Patch seen(const FinishedSilver&) const;

    PaperModel paper_;
    DevelopStep develop_;
    Finishing finishing_;
    std::optional<BathLayer> bath_;
    Developer developer_;
};

}  // namespace fogproof::print
