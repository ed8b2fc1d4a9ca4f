// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From light to developed silver: a population of grains, the fog of age, restrainer and development.
// Not modelled: solarisation, adjacency effects, exhaustion of the developer.
#pragma once

#include <array>
#include <cstddef>
#include <memory>
#include <vector>

#include "fogproof/base/quantity.hpp"
#include "fogproof/base/rising_map.hpp"
#include "fogproof/enlarger/enlarger.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::emulsion {

/// How the grains of one paper depart from the laws, which a fit learns; nil obeys them. Real papers are
/// coated from several emulsions. Whatever these numbers are, more light of either colour never makes fewer
/// grains developable.
struct GrainDeparture {
    static constexpr std::size_t kSlopes = 7, kParts = 5;
    /// ln of how much steeper the population is at z = -3, -2, ... 3, linear between them, level beyond.
    std::array<double, kSlopes> slope{};
    /// ln of how many more grains there are of a green sensitisation, and log10 exposure that these want
    /// more; bumps of width kPartWidth at eta = kPartStep (k - 2), both in standard deviations of eta.
    std::array<double, kParts> more{}, slower{};
    static constexpr double kPartStep = 0.9, kPartWidth = 0.65;
    [[nodiscard]] bool is_nil() const { return *this == GrainDeparture{}; }
    friend bool operator==(const GrainDeparture&, const GrainDeparture&) = default;
};

/// The grains of one emulsion blend. Log sensitivities are normal with spread `spread` in the blue; each
/// grain's green sensitisation differs by a factor 10^eta, eta normal with spread `green_spread`.
struct Grains {
    double log_threshold =
        0.0;  ///< median log10 exposure that makes a grain developable, blue light, nominal development
    double spread = 0.16;  ///< log10 units; judgement
    double green_spread =
        0.6;  ///< log10 units; judgement; 0.16 and 0.6 span ISO R 55 to 214 on the default sheet
    double max_density = 0.8;  ///< one-pass layer density with every grain developed, nominal development
    double skew = 0.0;  ///< above 0 the shoulder is steeper than the toe; 0 a normal population. Judgement
    double peak = 0.0;  ///< above 0 the middle is steeper than both ends; 0 a normal population. Judgement
    GrainDeparture departure{};  ///< what no other number here explains
    friend bool operator==(const Grains&, const Grains&) = default;
};

/// Fog of age: the share of grains that develop without light. All three are judgement until measured.
struct Fog {
    double share = 0.0;          ///< f0, at nominal time without restrainer
    double time_exponent = 0.7;  ///< a: fog grows as (t/t0)^a; below 1, growth slows (Theory & Practice, ch.
                                 ///< development, P4: in words)
    double edge = 0.0;           ///< share more at the very edge of a sheet, developed as f0 is
};

/// Restrainer in the developer, in ml of stock per litre of working solution. Judgement until measured.
struct Restrainer {
    double half_ml_l = 15.0;   ///< c_half: halves the fog in its reach
    double steepness = 1.2;    ///< h
    double speed_loss = 0.30;  ///< sc: log10 exposure lost at c = 9 c_half where nothing bends it
    /// Share of the fog that no amount takes away: restrainers slow centres that age has formed and do not
    /// remove them (common practice, no source); how many are out of reach is judgement.
    double fog_floor = 0.1;
    double speed_bend = 0.0;  ///< 0: it goes with log(1 + c/c_half); 1: with c itself; -1: it levels off like
                              ///< the share adsorbed (Langmuir). Loss at c_half stays as it is
    friend bool operator==(const Restrainer&, const Restrainer&) = default;
};

/// Development time and temperature. Judgement until measured.
struct Development {
    double nominal_s = 90.0;
    double nominal_c = 20.0;
    double induction_s = 8.0;  ///< ti: before the image appears
    double rise_s = 20.0;      ///< tau
    double speed_gain = 0.25;  ///< st: log10 exposure gained per factor ten of time
    double per_kelvin = 0.07;  ///< relative quickening per kelvin
    friend bool operator==(const Development&, const Development&) = default;
};

struct Emulsion {
    Grains grains;
    Fog fog;
    Restrainer restrainer;
    Development development;
};

/// What the printer does with the exposed sheet.
struct DevelopStep {
    double restrainer_ml_l = 0.0;
    double time_s = 90.0;  ///< 0: only fixed, no image and no fog
    double temperature_c = 20.0;
};

/// The development by which a paper's numbers are told: its nominal time and temperature, without restrainer.
[[nodiscard]] constexpr DevelopStep nominal_step(const Development& development) {
    return {0, development.nominal_s, development.nominal_c};
}

/// Silver in the layer after development and fixing.
struct DevelopedSilver {
    LayerDensity density;
};

/// A real emulsion is only nearly normal. Its departure is a rising function of z = (log10 E - m) / s0:
///   g(z) = z + skew (z erf(z/sqrt2) + sqrt(2/pi) (e^(-z^2/2) - 1)) + peak sqrt(pi/2) erf(z/sqrt2),
///   g'(z) = 1 + skew erf(z/sqrt2) + peak e^(-z^2/2)  > 0 for |skew| + max(-peak, 0) < 1.
/// Our own form, chosen because it is entire, keeps the median and has bounded slopes; judgement.
[[nodiscard]] double bent(double z, const Grains&);
/// z as the slopes of a departure map it; nil stays nil.
[[nodiscard]] RisingMap<GrainDeparture::kSlopes> slope_map(const GrainDeparture&);
/// g of z as the paper's own departure maps it: what a share of grains is the normal probability of.
[[nodiscard]] double grain_probit(double z, const Grains&);
/// The z with Phi(grain_probit(z)) = share.
[[nodiscard]] double grain_quantile(double share, const Grains&);

/// Phi(grain_probit(z)) of one population, tabulated for callers who ask very often: within 1e-7 of a bend
/// alone, 1e-5 with a departure.
class ShareTable {
  public:
    explicit ShareTable(const Grains&);
    [[nodiscard]] bool serves(const Grains& grains) const {
        return grains.skew == skew_ && grains.peak == peak_ && grains.departure.slope == slope_;
    }
    [[nodiscard]] double operator()(double z) const;

  private:
    double skew_, peak_;
    std::array<double, GrainDeparture::kSlopes> slope_;
    std::vector<std::array<double, 4>> cells_;  // coefficients of a cubic each, of rising power
};

/// Share of grains made developable by light:
///   p = Integral Phi(g((log10 E(eta) - m) / s0)) dN(eta),  E(eta) = blue + green 10^eta,
/// with the departures of the population in g, m and N.
/// Trapezoidal rule at a spacing below s0 (the integrand is an entire function, so the ripple stays under
/// 1e-9); closed form where green is nil.
class GrainPopulation {
  public:
    /// With a table (that serves these grains) answers are quicker and a little less exact.
    explicit GrainPopulation(const Grains&, std::shared_ptr<const ShareTable> = {});
    [[nodiscard]] double developable(EaselLight, double log_threshold) const;

  private:
    friend class FilteredGrains;
    [[nodiscard]] double share_below(double z) const;

    Grains grains_;
    std::shared_ptr<const ShareTable> table_;
    RisingMap<GrainDeparture::kSlopes> map_;
    // Of each part: green over blue sensitivity, z that it is slower, share of all grains.
    std::vector<double> green_factor_, slower_, weight_;
};

/// A population behind one filter, for callers who ask along the exposure: the light each part of it gets is
/// worked out once.
class FilteredGrains {
  public:
    FilteredGrains(const GrainPopulation&, const Filter&);
    /// As developable() of 10^log_over_threshold of the filter's light, over a threshold of 0.
    [[nodiscard]] double developable(double log_over_threshold) const;

  private:
    const GrainPopulation& population_;
    std::vector<double> z_;  // of each part at the threshold
};

/// One development of one emulsion, ready to be asked for every tone.
///   q = 1 - (1-p)(1-f),  f = f0 (t/t0)^a (r + (1-r) / (1 + (c/c_half)^h)),
///   m = m0 + sc log10(1 + c/c_half) - st log10(t/t0),
///   A = A0 q (1 - e^(-(t-ti)/tau)) / (1 - e^(-(t0-ti)/tau)).
class Developer {
  public:
    Developer(const Emulsion&, const DevelopStep&);
    /// The same with a population of these grains that somebody has at hand already.
    Developer(const Emulsion&, const DevelopStep&, GrainPopulation);
    [[nodiscard]] DevelopedSilver developed(EaselLight) const;
    /// The silver where a share of the grains was made developable by light; developed() is this of
    /// population().developable(light, log_threshold()).
    [[nodiscard]] DevelopedSilver with_share(double exposed) const;
    /// Share of the grains that develop without light at a place and would not in the middle of the sheet,
    /// where the place has a share `level` of the fog that the edge has more.
    [[nodiscard]] double more_fog(double level) const;
    [[nodiscard]] const GrainPopulation& population() const { return population_; }
    [[nodiscard]] double log_threshold() const { return log_threshold_; }
    /// Layer density with every grain developed in this development.
    [[nodiscard]] LayerDensity max_density() const { return {amplitude_}; }

  private:
    GrainPopulation population_;
    double log_threshold_, fog_, amplitude_;
    double free_fog_ = 0, edge_fog_ = 0;  // shares, before they are bounded
};

}  // namespace fogproof::emulsion
