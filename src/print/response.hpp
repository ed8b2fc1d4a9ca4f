// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Print density and lightness against log exposure: the characteristic curve of one way of working.
// A print's tones depend on its exposures only through one number, the clear-film seconds of the unit
// exposure times the negative's transmittance; so one curve serves every negative and every exposure time.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "base/interpolation.hpp"
#include "fogproof/emulsion/paper_numbers.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

class Response {
  public:
    /// The exposures of `steps` are taken as shares of a unit exposure, their times as weights; flashes are
    /// added as they are. At a place with a share of the fog that the sheet's edge has more.
    Response(const PaperModel&, const Enlarger&, const PrintSteps&, double edge_fog = 0);

    [[nodiscard]] Patch patch(LogExposure) const;
    /// A tone of this transmittance where the unit exposure comes on top of light that stays, flash apart.
    [[nodiscard]] Patch beside(EaselLight staying, double transmittance, LogExposure) const;
    [[nodiscard]] PrintDensity density(LogExposure exposure) const { return patch(exposure).density; }
    /// The same for many exposures, sooner; within 2e-5 D.
    [[nodiscard]] std::vector<PrintDensity> quick_densities(std::span<const LogExposure>) const;
    /// Under the easel blades: no light at all.
    [[nodiscard]] const Patch& border() const { return border_; }
    /// Densities without light from the negative (flash included) and with more than enough.
    [[nodiscard]] PrintDensity minimum() const { return minimum_; }
    [[nodiscard]] PrintDensity maximum() const { return maximum_; }
    /// ISO P and R points of this curve; nothing when the curve is too short for them.
    [[nodiscard]] std::optional<PaperNumbers> numbers() const;
    /// L* between two exposures, tabulated every 0.015 for a search to ask often; within 0.01 L*.
    [[nodiscard]] MonotoneCurve lightness_between(LogExposure from, LogExposure to) const;

  private:
    [[nodiscard]] Patch lit(const TreatedSheet&, EaselLight) const;

    TreatedSheet sheet_;
    PlaceOnSheet place_;
    Filter unit_{0, 0};
    EaselLight flash_;
    Patch border_;
    PrintDensity minimum_, maximum_;
};

}  // namespace fogproof::print
