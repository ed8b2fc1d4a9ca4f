// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Graded papers of a foreign darkroom, and what their owner knows of them: two slips, the label, the shortest
// time for full black, the head of the enlarger. Everything is drawn wider than the library's own doubts.
#pragma once

#include <random>

#include "fogproof/pack/pack.hpp"
#include "support/foreign_darkroom.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests::foreign {

class GradedPaper {
  public:
    explicit GradedPaper(unsigned seed);

    static constexpr double kBlackTime_s = 8;

    /// As its owner describes it.
    [[nodiscard]] Pack described();

    /// Of the density that the next sheet has over the last as a whole.
    [[nodiscard]] double sheet() { return normal(0, scatter_); }

    /// Print density behind a tone of the negative after so many seconds.
    [[nodiscard]] double printed(double seconds, double negative, double mean_light, double darker) const;

  private:
    [[nodiscard]] double between(double a, double b) { return std::uniform_real_distribution(a, b)(random_); }
    [[nodiscard]] double normal(double mean, double deviation) {
        return std::normal_distribution<>(mean, deviation)(random_);
    }
    [[nodiscard]] static double rounded(double density) { return std::round(100 * density) / 100; }

    [[nodiscard]] double density(double exposure, double darker, double develop_s) const {
        return paper_.density({exposure, 0, filter_, 0, develop_s, 0}) + darker;
    }
    [[nodiscard]] double density(double exposure, double darker) const {
        return density(exposure, darker, develop_s_);
    }

    // Range of the paper before it fogged: 0.04 above white to nine tenths of the net density.
    [[nodiscard]] double range() const;
    // The emulsion is that of a filter of the darkroom's papers.
    [[nodiscard]] bool has_range(double wanted);
    // As the eye takes it for, by its sheen: papers of a surface have blacks near each other.
    [[nodiscard]] Surface surface() const;

    Paper paper_;
    std::mt19937 random_;
    double filter_ = 2, develop_s_ = 90, scatter_ = 0, callier_ = 1, flare_ = 0, reciprocity_ = 1,
           per_second_ = 1;
};

}  // namespace fogproof::tests::foreign
