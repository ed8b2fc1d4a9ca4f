// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "sheet/toned_spectrum.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "sheet/optics.hpp"

namespace fogproof::sheet {
namespace {

// The bell over the green that makes a tone purple. Judgement.
constexpr double kGreen_nm = 545.0, kGreenWidth_nm = 60.0;
// What silver sulphide or selenide can plausibly be; the same ranges as in the pack's file.
constexpr double kLeastTone = -2, kMostTone = 4, kLeastPurple = -0.2, kMostPurple = 1;
// Far below what a colorimeter shows.
constexpr double kSameColour = 1e-7;

struct TonedLayer {
    double density, tone, purple;
};

// Scaled so that the eye's mean over the wavelengths is the density: covering then compares what the eye sees
// of toned and of plain silver.
Spectrum spectrum_of(const TonedLayer& layer) {
    Spectrum density;
    for (std::size_t i = 0; i < kBands; ++i) {
        const double from_green = (band_nm(i) - kGreen_nm) / kGreenWidth_nm;
        density[i] = std::pow(band_nm(i) / 550.0, -layer.tone) *
                     (1 + layer.purple * std::exp(-from_green * from_green));
    }
    const double mean = xyz_under_d50(density).y;
    for (double& d : density) d *= layer.density / mean;
    return density;
}

// Newton in three unknowns with a differenced Jacobian, as the base is found.
class PatchSearch {
  public:
    PatchSearch(const Lab& wanted, const Spectrum& base, double surface)
        : wanted_(wanted), base_(base), surface_(surface) {}

    /// The layer that looks as wanted, sought from this one on; nothing where none of the family does.
    [[nodiscard]] std::optional<TonedLayer> from(TonedLayer layer) const {
        for (int step = 0; step < 60; ++step) {
            const std::array miss = missed(layer);
            if (std::abs(miss[0]) + std::abs(miss[1]) + std::abs(miss[2]) < kSameColour) return layer;
            std::array<std::array<double, 3>, 3> column;
            for (std::size_t k = 0; k < 3; ++k) {
                constexpr double kNudge = 1e-6;
                TonedLayer moved = layer;
                part(moved, k) += kNudge;
                const std::array there = missed(moved);
                for (std::size_t i = 0; i < 3; ++i) column[k][i] = (there[i] - miss[i]) / kNudge;
            }
            const double whole = determinant_of(column);
            if (!(std::abs(whole) > 0)) return std::nullopt;
            for (std::size_t k = 0; k < 3; ++k) {
                auto with = column;
                with[k] = miss;
                // Steps small enough that a far colour is walked to, not jumped past.
                part(layer, k) -= std::clamp(determinant_of(with) / whole, -0.3, 0.3);
            }
            layer.density = std::max(layer.density, 0.005);
            layer.purple = std::max(layer.purple, -0.9);
        }
        return std::nullopt;
    }

  private:
    static double& part(TonedLayer& layer, std::size_t which) {
        return which == 0 ? layer.density : which == 1 ? layer.tone : layer.purple;
    }

    static double determinant_of(const std::array<std::array<double, 3>, 3>& c) {
        return c[0][0] * (c[1][1] * c[2][2] - c[1][2] * c[2][1]) -
               c[1][0] * (c[0][1] * c[2][2] - c[0][2] * c[2][1]) +
               c[2][0] * (c[0][1] * c[1][2] - c[0][2] * c[1][1]);
    }

    [[nodiscard]] std::array<double, 3> missed(const TonedLayer& layer) const {
        const Spectrum density = spectrum_of(layer);
        Spectrum seen;
        for (std::size_t i = 0; i < kBands; ++i) seen[i] = surface_ + williams_clapper(base_[i], density[i]);
        const Lab colour = lab(xyz_under_d50(seen));
        return {colour.l - wanted_.l, colour.a - wanted_.a, colour.b - wanted_.b};
    }

    Lab wanted_;
    const Spectrum& base_;
    double surface_;
};

}  // namespace

Spectrum toned_spectrum(const TonedColour& colour, const Spectrum& base, double surface,
                        const std::string& toner) {
    if (colour.patch.l <= 0) return spectrum_of({1, colour.tone, colour.purple});
    const auto layer = PatchSearch(colour.patch, base, surface).from({0.4, colour.tone, colour.purple});
    if (!layer || layer->tone < kLeastTone || layer->tone > kMostTone || layer->purple < kLeastPurple ||
        layer->purple > kMostPurple)
        throw Error(Fault::config, toner + ".patch",
                    "L* " + decimal(colour.patch.l, 1) + ", a* " + decimal(colour.patch.a, 1) + ", b* " +
                        decimal(colour.patch.b, 1) + " is no colour of toned silver on this paper's white",
                    "the patch measured dry under D50, darker than the white, all of its silver toned");
    return spectrum_of({1, layer->tone, layer->purple});
}

}  // namespace fogproof::sheet
