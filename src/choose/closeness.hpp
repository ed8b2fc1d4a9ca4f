// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How close prints come to what is wanted, asked by the hundred thousand. Once grade, development and bleach
// are settled, exposure only shifts the tones along one curve of L* over log exposure: that curve is laid out
// once and every exposure reads it.
#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

#include "choose/quick_print.hpp"
#include "choose/recipe_search.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// What depths of bleach are counted in: the clearing dose; on a sheet that has nothing to clear, the dose
/// that would clear a veil of 0.15 D (judgement: about a stop of its middle tones), since a clean sheet can
/// be printed darker and bleached too.
[[nodiscard]] double depth_unit(const PaperModel&, const DevelopStep&);

class Closeness {
  public:
    Closeness(const Printing&, const Wanted&);

    struct Closest {
        double log_h, rms;
    };
    /// The starting exposure, by the parabola through the three best of a grid, and the rms L* of its print;
    /// four stops either side of the fresh print's, restrainer allowed for. What makes it the start is
    /// Adaptation::miss; the rms is absolute.
    [[nodiscard]] const Closest& closest(double grade, const DevelopStep&, double dose);
    /// rms L* of one print, every tone by itself.
    [[nodiscard]] double rms(double grade, const DevelopStep&, double dose, double log_h);
    /// The starting exposure, every tone by itself, near a first guess.
    [[nodiscard]] Closest settled(double grade, const DevelopStep&, double dose, double guess);
    /// What of a dose a starting exposure makes up for: most_made_up_for() at most.
    [[nodiscard]] double made_up_for(const DevelopStep&, double dose);
    /// The depth_unit() of a development.
    [[nodiscard]] double unit(const DevelopStep&);
    [[nodiscard]] std::size_t tried() const { return tried_; }

  private:
    // A tone by its place on the grid of log exposure.
    struct PlacedTone {
        std::size_t node, line;
        double beyond, share, wanted;
    };
    struct WayOfDeveloping {
        Developer developer;
        double unit;
        std::optional<double> most_made_up_for;
    };
    // Mean squares of Adaptation::miss and of the absolute miss.
    struct Misses {
        double seen, absolute;
    };
    [[nodiscard]] Misses misses(double grade, const DevelopStep&, double dose, double log_h);
    [[nodiscard]] Adaptation adaptation(const DevelopStep&, double dose);
    const WayOfDeveloping& way(const DevelopStep&);
    const ShareCurve& share_curve(double grade, std::size_t line);
    [[nodiscard]] double silver(const Developer&, double exposed, std::size_t line) const;
    const std::vector<double>& row(double dose);
    void place_tones();

    const Printing& printing_;
    std::shared_ptr<const ShareTable> table_;
    GrainPopulation population_;
    FilterSet filters_;
    BleachedLightness lightness_;
    std::vector<double> wanted_, log_light_, share_;
    std::vector<std::size_t> line_;     // of each tone, in lines_
    std::vector<PlaceWork> lines_{{}};  // what places share
    std::vector<double> bleached_;      // doses of local bleach, by line
    std::optional<double> white_;
    std::vector<PlacedTone> placed_;
    double dimmest_ = 0, span_ = 0, nominal_threshold_;
    std::map<std::pair<long, std::size_t>, ShareCurve> curves_;  // by hundredths of a grade and line
    std::map<double, std::vector<double>> rows_;
    std::map<std::pair<double, double>, WayOfDeveloping> ways_;  // by restrainer and time
    std::map<std::tuple<long, double, double, double>, Closest> closest_;
    std::size_t tried_ = 0;
};

}  // namespace fogproof::choose
