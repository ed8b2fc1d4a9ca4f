// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Print density and lightness against log exposure: the characteristic curve of one way of working.
// A print's tones depend on its exposures only through one number, the clear-film seconds of the unit
// exposure times the negative's transmittance; so one curve serves every negative and every exposure time.
#pragma once

#include <optional>
#include <vector>

#include "fogproof/base/interpolation.hpp"
#include "fogproof/emulsion/paper_numbers.hpp"
#include "fogproof/print/print_model.hpp"

namespace fogproof {

class Response {
  public:
    /// The exposures of `steps` are taken as shares of a unit exposure, their times as weights. The head and
    /// reciprocity of `enlarger` count; flashes are added as they are.
    Response(const PaperModel&, const Enlarger&, const PrintSteps&);

    /// Tones at a log exposure, from the model itself.
    [[nodiscard]] Patch patch(LogExposure) const;
    /// L* and visual density from a table over [-4, 5] in steps of 0.02; within 0.01 L* and 0.001 D.
    [[nodiscard]] double lightness(LogExposure) const;
    [[nodiscard]] PrintDensity density(LogExposure) const;
    /// L* of the unexposed border.
    [[nodiscard]] double white_lightness() const { return white_lightness_; }
    /// Densities without light from the negative (flash included) and with more than enough.
    [[nodiscard]] PrintDensity minimum() const { return minimum_; }
    [[nodiscard]] PrintDensity maximum() const { return maximum_; }
    /// ISO P and R points of this curve; nothing when the curve is too short for them.
    [[nodiscard]] std::optional<PaperNumbers> numbers() const;

  private:
    PrintModel model_;
    Filter unit_;
    EaselLight flash_;
    PrintDensity minimum_, maximum_;
    double white_lightness_;
    std::optional<MonotoneCurve> lightness_, density_;
};

}  // namespace fogproof
