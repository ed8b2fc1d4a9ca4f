// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/sheet/sheet.hpp"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>

#include "sheet/base_spectrum.hpp"
#include "sheet/optics.hpp"
#include "sheet/quick_bands.hpp"
#include "sheet/toned_spectrum.hpp"

namespace fogproof::sheet {
namespace {

constexpr double kThickestLayer = 4.0;
// Layer density within which quick_density finds a place; print density is steeper than the layer's by two.
constexpr double kQuickError = 2e-5;

// Judgement: the cream of bleach stain. It falls slowly enough from the blue to take a little green too, or
// the stain would look greenish.
double unit_stain(double wavelength_nm) {
    return std::exp(-std::max(0.0, wavelength_nm - 420.0) / 70.0);
}

// Stain of so much silver gone: in proportion while that is little, as in a cleared blank, and never more
// than that of kStainEnds. What stains is what the wash leaves in the gelatin, and that holds only so much.
// Judgement.
constexpr double kStainEnds = 0.15;
double staining(LayerDensity gone) {
    return kStainEnds * -std::expm1(-gone.value / kStainEnds);
}

// Share of the silver present before the bleach that the bleach took; nothing where there was none.
double bleached_share(const FinishedSilver& silver) {
    const bool selenium = silver.toner == Toner::selenium;  // which was never bleached
    const double taken = silver.back.value + silver.gone.value + (selenium ? 0.0 : silver.toned.value);
    const double before = silver.left.value + taken + (selenium ? silver.toned.value : 0.0);
    return before > 0.0 ? taken / before : 0.0;
}

}  // namespace

Sheet::Sheet(const SheetConstants& constants) : constants_(constants), base_(base_spectrum(constants)) {
    for (std::size_t i = 0; i < kBands; ++i) {
        log_ratio_[i] = std::log(band_nm(i) / 550.0);
        redeveloped_[i] = std::exp(-constants.redeveloped_tone * log_ratio_[i]);
        stain_[i] = constants.stain * unit_stain(band_nm(i));
    }
    const std::array colours{&constants.sulphide, &constants.thiourea, &constants.selenium};
    static constexpr std::array kNames{"sulphide", "thiourea", "selenium"};
    for (std::size_t t = 0; t < kToners; ++t)
        toned_[t] = toned_spectrum(*colours[t], base_, constants.surface, kNames[t]);
    white_ = visual_density(reflectance({}));
}

double Sheet::toned_density(const FinishedSilver& silver, std::size_t band) const {
    return silver.toner == Toner::none ? 0.0
                                       : silver.toned.value * toned_[std::size_t(silver.toner) - 1][band];
}

Spectrum Sheet::reflectance(const FinishedSilver& silver) const {
    const double tone = constants_.silver_tone + constants_.thinned_tone * bleached_share(silver);
    const double stain = staining(silver.gone);
    Spectrum seen;
    for (std::size_t i = 0; i < kBands; ++i) {
        const double density = silver.left.value * std::exp(-tone * log_ratio_[i]) +
                               silver.back.value * redeveloped_[i] + stain * stain_[i] +
                               toned_density(silver, i);
        seen[i] = constants_.surface + williams_clapper(base_[i], density);
    }
    return seen;
}

double Sheet::on_quick_bands(const FinishedSilver& silver, double WeightedBand::*weight) const {
    const double tone = constants_.silver_tone + constants_.thinned_tone * bleached_share(silver);
    const double stain = staining(silver.gone);
    double sum = 0;
    for (const WeightedBand& weighted : quick_bands()) {
        const std::size_t band = weighted.band;
        const double density = silver.left.value * std::exp(-tone * log_ratio_[band]) +
                               silver.back.value * redeveloped_[band] + stain * stain_[band];
        sum += weighted.*weight * (constants_.surface + williams_clapper(base_[band], density));
    }
    return sum;
}

// Seven bands are too few for the colour of toned silver.
PrintDensity Sheet::quick_density(const FinishedSilver& silver) const {
    if (silver.toned.value > 0) return visual_density(reflectance(silver));
    return {-std::log10(on_quick_bands(silver, &WeightedBand::visual))};
}

double Sheet::quick_lightness(const FinishedSilver& silver) const {
    if (silver.toned.value > 0) return lab(xyz_under_d50(reflectance(silver))).l;
    return lab({0, on_quick_bands(silver, &WeightedBand::luminance), 0}).l;
}

Spectrum Sheet::reflectance_under(const FinishedSilver& silver, const BathLayer& bath) const {
    constexpr double kWaterIndex = 1.33;
    const double sine = std::sqrt(0.5) / kWaterIndex;  // light falls in at 45 degrees in air
    const double path_cm = bath.depth_mm / 10.0 * (1.0 + 1.0 / std::sqrt(1.0 - sine * sine));
    Spectrum seen = reflectance(silver);
    for (std::size_t i = 0; i < kBands; ++i)
        seen[i] *= std::pow(10.0, -ferricyanide_absorbance(band_nm(i), bath.ferricyanide_g_l, path_cm));
    return seen;
}

PrintDensity Sheet::density(DevelopedSilver silver) const {
    return visual_density(reflectance({silver.density, {}, {}}));
}

LayerDensity Sheet::layer_showing(PrintDensity wanted) const {
    const auto beyond = [&](double layer) { return density({{layer}}).value - wanted.value; };
    const auto nearly = [&](double layer) { return quick_density({{layer}, {}, {}}).value - wanted.value; };
    const double at_none = beyond(0.0);
    if (at_none >= 0.0) return {0.0};
    // The quick density leads close by; the full one settles it between two places that enclose it.
    double low = 0.0, high = kThickestLayer, at_low = at_none, at_high = 0.0;
    const double near_none = nearly(0.0), near_most = nearly(kThickestLayer);
    std::uintmax_t steps = 100;
    if (near_none < 0.0 && near_most > 0.0) {
        const auto [below, above] =
            boost::math::tools::toms748_solve(nearly, 0.0, kThickestLayer, near_none, near_most,
                                              boost::math::tools::eps_tolerance<double>(20), steps);
        low = std::max(0.0, below - kQuickError);
        high = std::min(kThickestLayer, above + kQuickError);
        at_low = beyond(low);
    }
    at_high = beyond(high);
    if (!(at_low <= 0.0)) low = 0.0, at_low = at_none;
    if (!(at_high >= 0.0)) high = kThickestLayer, at_high = beyond(kThickestLayer);
    if (at_high <= 0.0) return {kThickestLayer};
    steps = 100;
    const auto [below, above] = boost::math::tools::toms748_solve(
        beyond, low, high, at_low, at_high, boost::math::tools::eps_tolerance<double>(48), steps);
    return {(below + above) / 2.0};
}

}  // namespace fogproof::sheet
