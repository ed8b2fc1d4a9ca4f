// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A second darkroom's laws of restrainer: what speed a dose of bromide costs and what fog it leaves, three of
// each. They were written down, ranges included, before any fit had met them, to judge bands at doses
// nobody read. Reasoned from general knowledge of the subject; no source of numbers.
#pragma once

#include <random>

#include "support/rooms.hpp"

namespace fogproof::tests::foreign {

class Restraint {
  public:
    explicit Restraint(unsigned seed);
    /// log10 exposure lost to `c` ml of stock in a litre.
    [[nodiscard]] double speed_lost(double c) const;
    /// Share of the fogged grains that still develop.
    [[nodiscard]] double fog_left(double c) const;
    [[nodiscard]] int law() const { return 10 * speed_law_ + fog_law_; }

  private:
    double between(double a, double b) { return std::uniform_real_distribution(a, b)(random_); }

    std::mt19937 random_;
    int speed_law_, fog_law_;
    double per_ml_, most_, middle_, own_bromide_, per_decade_, floor_, adsorbed_, power_, decay_;
};

}  // namespace fogproof::tests::foreign
