// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The zero of a fitted pack's seconds, out of what its readings were exposed through.
#pragma once

#include <span>

#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// The pack's own carrier where it is known as a density, or where no reading tells one. Else that of the
/// readings: the one they share, or the empty carrier; clear film is taken as the one they share. Throws
/// Error(Fault::data) where some tell it, and others or the pack's own seconds do not: nothing says how far
/// the two lie apart.
[[nodiscard]] Carrier zero_of(const Pack& before, std::span<const Reading>);

/// Fills in what lay in the carrier where a lit reading leaves it open.
void tell_carrier(std::span<Reading>, double carrier_density);

/// Whether a reading is of paper that had light: an empty exposure is some behind a wedge, and none
/// elsewhere.
[[nodiscard]] bool is_lit(const Reading&);

/// Lit readings that leave open what lay in the carrier.
[[nodiscard]] bool leaves_carrier_open(const Reading&);

}  // namespace fogproof::pack
