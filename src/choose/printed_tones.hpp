// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One way of working on one paper as a short curve of L* over log exposure, and how far its prints are from
// what is wanted. Asked by the hundred thousand.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "choose/wanted_tones.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// Straight lines between nodes of log10 exposure; beyond its ends it stays.
class LightnessLine {
  public:
    static constexpr double kNode = 0.04;

    /// `lightness` of each log exposure is asked once.
    template <class Lightness>
    LightnessLine(double from, double to, const Lightness& lightness) : from_(from) {
        const auto nodes = std::size_t((to - from) / kNode) + 2;
        for (std::size_t i = 0; i < nodes; ++i) lightness_.push_back(lightness(from + double(i) * kNode));
    }
    [[nodiscard]] double operator()(double log_h) const {
        const double place = (log_h - from_) / kNode;
        if (!(place > 0)) return lightness_.front();
        const auto cell = std::size_t(place);
        if (cell + 1 >= lightness_.size()) return lightness_.back();
        return lightness_[cell] + (place - double(cell)) * (lightness_[cell + 1] - lightness_[cell]);
    }

  private:
    double from_;
    std::vector<double> lightness_;
};

/// What is wanted, by the light that reaches the paper.
struct WantedLights {
    std::vector<double> log_light, share, lightness;
    std::vector<std::size_t> line;  ///< of those of a print, one for each local bleach
    double dimmest, brightest;
};

/// By what L* + 16 shrinks where a print is darker: light goes by 10^-D, L* + 16 by its cube root (above L* 8
/// exactly; below it slightly less, too little to matter).
[[nodiscard]] double dimming(double darker);

/// Log exposure within a reach of the middle whose print has the least miss.
[[nodiscard]] double closest_exposure(std::span<const LightnessLine>, const WantedLights&, const Adaptation&,
                                      double dimmed, double middle, double reach);

/// rms L* at a log exposure, the print dimmed by its sheet, its tones apart from their curve by a density
/// each of this deviation.
[[nodiscard]] double rms_at(std::span<const LightnessLine>, const WantedLights&, double log_h, double dimmed,
                            double apart);

}  // namespace fogproof::choose
