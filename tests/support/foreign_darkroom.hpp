// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Papers that are not ours: a virtual darkroom with other laws in every room than the library's, three of a
// kind, drawn at random. Written from general knowledge of the subject (the sources are named where there are
// any) and only to see how the library fares on paper that does not obey it.
#pragma once

#include <array>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "fogproof/pack/readings.hpp"
#include "support/foreign_restraint.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests::foreign {

struct Treatment {
    double exposure_s = 0, wedge = 0, filter = 2, restrainer = 0, develop_s = 90, bleach_s = 0;
};

enum class Darkroom { first, second };

/// One random paper; in the second darkroom with its laws of restrainer.
class Paper {
  public:
    explicit Paper(unsigned seed, Darkroom darkroom = Darkroom::first);

    /// Visual density, without noise.
    [[nodiscard]] double density(const Treatment& t) const;
    /// Seconds through clear film that leave a clear end black.
    [[nodiscard]] double black_seconds(double filter, double restrainer) const;
    /// Seconds that take the unexposed sheet to within `above` of its white.
    [[nodiscard]] double clearing_seconds(double restrainer, double above) const;
    [[nodiscard]] std::string laws() const;

    /// From now on its filters are matched in speed, as sets are sold: alike to 3 1/2 where the print is a
    /// middle grey, twice the time from 4 on (common practice, no source), and not quite so on this paper.
    void match_filters();

  private:
    static constexpr std::size_t kParts = 3;
    static constexpr double kFilterStep = 0.25;

    int pick(int n) { return std::uniform_int_distribution(0, n - 1)(random_); }
    double between(double a, double b) { return std::uniform_real_distribution(a, b)(random_); }

    // Filters in the light path: harder ones pass less green, and none keeps the speed quite, unless they are
    // matched.
    [[nodiscard]] std::pair<double, double> light(const Treatment& t) const;

    [[nodiscard]] double gained(double filter) const;

    // Poisson: at least `hits` of a mean.
    [[nodiscard]] static double at_least(int hits, double mean);

    // One blended emulsion's share of developed grains, thermal hits counted in.
    [[nodiscard]] double developed(double exposure, double thermal) const;

    [[nodiscard]] double silver(const Treatment& t) const;

    // Euler in small steps; the laws have no closed form worth having.
    [[nodiscard]] double thinned(double before, double seconds) const;

    // White, surface and silver to density.
    [[nodiscard]] double shown(double silver) const;

    std::mt19937 random_;
    std::optional<Restraint> restraint_;
    int grain_law_, fog_law_, bleach_law_, optics_, hits_;
    double log_speed_, size_spread_, shape_, burr_, fog_, half_, fog_power_, slowing_, silver_, rate_,
        starved_, soak_, white_, gloss_, filter_tilt_, filter_error_;
    std::array<double, kParts> green_{};
    std::vector<double> matched_;  // log10 light that filters gain by being matched, from 0 on by kFilterStep
};

/// A reading of it: noise, then rounding to 0.01.
class Densitometer {
  public:
    Densitometer(const Paper& paper, unsigned seed, double noise)
        : paper_(paper), random_(seed), noise_(noise) {}

    Reading read(const std::string& strip, const Treatment& t);
    /// A step tablet of 21 steps from 0.05 to 3.05 (US Navy NAVEDTRA 14209, p. 10-40).
    void read_strip(std::vector<Reading>& readings, const std::string& strip, Treatment t);

  private:
    const Paper& paper_;
    std::mt19937 random_;
    double noise_;
};

}  // namespace fogproof::tests::foreign
