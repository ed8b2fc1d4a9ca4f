// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which readings err together: those of one sheet, which is a little stronger or weaker than the next one
// as a whole, those of one patch made twice, which the laws miss alike, and those of one instrument, as far
// as the readings tell how well it is adjusted.
#pragma once

#include <Eigen/Dense>
#include <span>
#include <string>
#include <tuple>
#include <vector>

#include "fit/error_spread.hpp"
#include "fit/predictor.hpp"
#include "fit/roughness.hpp"
#include "fit/treated_patch.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// Of one reading, standard deviations in D.
struct ErrorSizes {
    double reading = 0.01;  ///< of the instrument, from one patch to the next, at kRoughAt (see roughness())
    double law = 0;         ///< of the laws, alike for neighbouring patches
    double sheet = 0.02;    ///< of a sheet in all tones; its light scatters by kSheetInLight of it
    /// Whether the first rises with density, as roughness() has it. A fit from afar takes it as even: where
    /// dark patches count for less a strip of another filter may be left out as an outlier before it is
    /// understood.
    bool rises = false;
};

/// The sheet that a strip is a half of, "a" of "a-before" and "a-bleached"; the strip itself where it is
/// none.
[[nodiscard]] std::string sheet_of(const std::string& strip);
/// Whether a strip has this name, or is a half of the sheet that has it.
[[nodiscard]] bool is_part_of(const std::string& strip, const std::string& name);

/// What was done to a piece of paper after the light: filter first, since filters need sheets of their own.
using Treatment = std::tuple<double, double, double, double, double, double>;
[[nodiscard]] Treatment treatment_of(const TreatedPatch&);

class Likeness {
  public:
    Likeness(std::span<const Reading>, const Pack& nominal);

    [[nodiscard]] const std::vector<TreatedPatch>& patches() const { return patches_; }
    /// Columns of shared(): two for each sheet, what it is off by in all tones and in light.
    [[nodiscard]] Eigen::Index sheets() const { return sheets_; }
    [[nodiscard]] ErrorSpread spread(const ErrorSizes&) const;
    /// Variances of what readings err by themselves.
    [[nodiscard]] Eigen::VectorXd own(const ErrorSizes&) const;
    /// Shared errors: of patches made twice, of sheets, of instruments.
    [[nodiscard]] SharedErrors shared(const ErrorSizes&) const;
    /// Which columns of these are sheets. A slip that was only fixed has no silver to differ by.
    [[nodiscard]] Eigen::Index first_sheet() const { return repeats_; }
    /// Residuals without what sheets and instruments are likely to be off.
    [[nodiscard]] Eigen::VectorXd set_off(const ErrorSizes&, const Eigen::VectorXd& residuals) const;
    /// How far a reading stands out of its sheet, and its sheet out of all, in standard deviations of either.
    struct StandsOut {
        Eigen::VectorXd of_sheet, with_sheet;
    };
    [[nodiscard]] StandsOut stands_out(const ErrorSizes&, const Eigen::VectorXd& residuals) const;

  private:
    enum class Kind { repeat, sheet, instrument };
    struct Share {
        Eigen::Index reading, column;
        Kind kind;
        double size;  ///< D of an instrument's; of a sheet's, what 1 D of it makes
    };
    std::vector<TreatedPatch> patches_;
    std::vector<double> told_;   ///< errors of their own that readings tell
    std::vector<double> rough_;  ///< roughness() of each
    std::vector<bool> repeated_;
    std::vector<Share> shares_;
    Eigen::Index repeats_ = 0, sheets_ = 0, instruments_ = 0;  ///< columns
};

}  // namespace fogproof::fit
