// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One print: pack, enlarger and steps, asked tone by tone. Reads as the darkroom works.
#pragma once

#include <optional>
#include <vector>

#include "fogproof/enlarger/enlarger.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/print/silver_path.hpp"
#include "fogproof/sheet/sheet.hpp"

namespace fogproof {

/// A recipe with every question answered: real filters, real seconds, a real dose.
struct PrintSteps {
    std::vector<Exposure> exposures;
    std::vector<Exposure> flashes;
    DevelopStep develop;
    Finishing finishing;
};

/// One tone of the finished print.
struct Patch {
    FinishedSilver silver;
    PrintDensity density;  ///< visual
    Lab lab;               ///< D50, against the perfect diffuser
};

class PrintModel {
  public:
    /// mean_transmitted: the frame's own mean of 10^(-Q Dn), spread by flare. A bath shows the print through
    /// it.
    PrintModel(const PaperModel&, const Enlarger&, PrintSteps, double mean_transmitted,
               std::optional<BathLayer> bath = std::nullopt);

    /// A tone of the negative.
    [[nodiscard]] Patch patch(NegativeDensity) const;
    /// The same print for whoever asks for many patches: shares of grains out of a table, which errs by less
    /// than 1e-8 of them.
    [[nodiscard]] PrintModel for_many_patches() const;
    /// The border under the easel blades: developed, bleached, never exposed.
    [[nodiscard]] Patch border() const;
    /// Any light at the easel.
    [[nodiscard]] Patch lit(EaselLight) const;
    /// The same sheet only fixed.
    [[nodiscard]] Patch fixed_only() const;

  private:
    [[nodiscard]] Patch seen(const FinishedSilver&) const;

    PaperModel paper_;
    Enlarger enlarger_;
    PrintSteps steps_;
    double mean_transmitted_;
    std::optional<BathLayer> bath_;
    Developer developer_;
};

}  // namespace fogproof
