// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The finished sheet as the eye meets it: silver, stain and base behind a gelatin surface, as a spectrum.
// Not modelled: texture, fluorescence of brightened base, scattering in the layer.
#pragma once

#include <array>
#include <cstddef>

#include "fogproof/base/quantity.hpp"
#include "fogproof/redevelop/redevelop.hpp"
#include "fogproof/rooms.hpp"
#include "fogproof/sheet/colour.hpp"

namespace fogproof::sheet {

/// The colour of toned silver: A(lambda) = A (lambda/550)^-tone (1 + purple g(lambda)), g a bell over the
/// green, scaled to the eye's mean. No measured spectrum or colour of a toned print was found; the law and
/// its numbers are judgement, until a patch is measured.
struct TonedColour {
    double tone = 0.0, purple = 0.0;
    /// CIELAB under D50 of a fully toned patch of this paper, which then decides in place of both numbers; L*
    /// 0: nobody measured one.
    Lab patch{};
    friend bool operator==(const TonedColour& a, const TonedColour& b) {
        return a.tone == b.tone && a.purple == b.purple && a.patch.l == b.patch.l && a.patch.a == b.patch.a &&
               a.patch.b == b.patch.b;
    }
};

/// What the paper itself brings to the look of a print.
struct SheetConstants {
    double white_density = 0.08;  ///< visual density of the fixed-only slip
    double white_a = 0.0;         ///< its a* under D50
    double white_b = -1.0;        ///< its b*
    double surface = 0.005;     ///< first-surface light reaching the eye, reflectance (gloss 0.005, semi-matt
                                ///< 0.016, matt 0.03: judgement)
    double silver_tone = 0.10;  ///< q of developed silver, A(lambda) = A (lambda/550)^-q
    double thinned_tone = 0.35;     ///< added to q where nearly all silver was bleached away
    double redeveloped_tone = 0.7;  ///< q of redeveloped silver
    double stain =
        0.04;  ///< blue (420 nm) layer density of bleach stain per layer density of silver bleached and gone,
               ///< where that is little; in emptied shadows it levels off (judgement)
    /// Mid-tones at a* 4 to 8 and b* 10 to 25 (from memory); thiourea the yellower, of one colour, since no
    /// measurement says what its alkali does. Selenium to aubergine on cold papers (Amateur Photographer,
    /// "Darkroom toning tips").
    TonedColour sulphide{2.1, 0.06}, thiourea{2.7, 0.0}, selenium{0.2, 0.3};
    friend bool operator==(const SheetConstants&, const SheetConstants&) = default;
};

/// A ferricyanide bath standing over the print (Beer's law).
struct BathLayer {
    double ferricyanide_g_l = 0.0;
    double depth_mm = 5.0;
};

struct WeightedBand;  // of the quick forms

/// One paper's optics, ready to be asked for every tone.
class Sheet {
  public:
    explicit Sheet(const SheetConstants&);

    /// Spectral reflectance factor, 45/0, first-surface light included.
    [[nodiscard]] Spectrum reflectance(const FinishedSilver&) const;
    /// The same seen through a layer of bath, light going through it down and up.
    [[nodiscard]] Spectrum reflectance_under(const FinishedSilver&, const BathLayer&) const;
    /// Visual density of any silver from seven bands, for a fit to ask often: within 2e-5 D of
    /// visual_density(reflectance(silver)) for any sheet and silver of a pack.
    [[nodiscard]] PrintDensity quick_density(const FinishedSilver&) const;
    /// L* under D50 in the same way, for a search to ask often: within 0.003 of
    /// lab(xyz_under_d50(reflectance(silver))).l.
    [[nodiscard]] double quick_lightness(const FinishedSilver&) const;
    /// Visual density of plain developed silver; rising in it.
    [[nodiscard]] PrintDensity density(DevelopedSilver) const;
    /// The layer density that shows a visual density, by root finding. Clamped to [0, 4].
    [[nodiscard]] LayerDensity layer_showing(PrintDensity) const;
    [[nodiscard]] PrintDensity white() const { return white_; }

  private:
    [[nodiscard]] double toned_density(const FinishedSilver&, std::size_t band) const;
    [[nodiscard]] double on_quick_bands(const FinishedSilver&, double WeightedBand::*weight) const;

    SheetConstants constants_;
    Spectrum base_{};                        // rho(lambda) behind the layer
    Spectrum log_ratio_{};                   // ln(lambda/550)
    Spectrum redeveloped_{};                 // (lambda/550)^-q of redeveloped silver
    std::array<Spectrum, kToners> toned_{};  // of toned silver, to the eye 1 in the mean
    Spectrum stain_{};                       // of the stain of a little silver gone, per layer density
    PrintDensity white_;
};

/// Molar absorptivity of ferricyanide at a wavelength, L/(mol cm): about 1020 at 420 nm, nil above 520 (from
/// memory).
[[nodiscard]] double ferricyanide_absorptivity(double wavelength_nm);
/// Absorbance of a ferricyanide solution: epsilon c l.
[[nodiscard]] double ferricyanide_absorbance(double wavelength_nm, double grams_per_litre, double path_cm);

}  // namespace fogproof::sheet
