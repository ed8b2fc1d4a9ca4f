// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A bleach bath being used up: how far it goes, and how it slows down on the way.
// Not modelled: carry-over of water, oxidation by air and light (kBathHours stands for them).
#pragma once

#include "bleach/capacity.hpp"
#include "fogproof/bleach/bleach.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::bleach {

/// Share of its capacity after which a bath is renewed. Judgement: by then the time has grown by a third
/// where it goes with the strength, and an eye on the clock no longer helps.
inline constexpr double kUsableShare = 0.25;
/// Hours that a mixed working bath is trusted, in subdued light. Judgement: one evening.
inline constexpr double kBathHours = 4;

class BathUse {
  public:
    BathUse(const BleachBath&, double litres);

    /// Grams of silver that the bath may take up before it is renewed: kUsableShare of what its chemistry
    /// allows.
    [[nodiscard]] double usable_silver_g() const { return kUsableShare * capacity_g_; }
    /// True when so much silver more stays within that.
    [[nodiscard]] bool takes(double silver_g) const;
    void take(double silver_g) { used_g_ += silver_g; }
    void renew() { used_g_ = 0; }
    /// Share of the capacity used up so far ; 1 once a bath without bromide was used at all.
    [[nodiscard]] double used() const;
    /// The bath with the ferricyanide it has left; what gives a dose then takes longer.
    [[nodiscard]] BleachBath as_it_is() const;

  private:
    BleachBath bath_;
    double litres_, capacity_g_, used_g_ = 0;
};

}  // namespace fogproof::bleach
