// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Readings that would count twice: rows that agree in every column, density included. Repeats that stand
// directly one below the other in one file are left alone, and so is one by itself among the readings of its
// strip: that is how a patch measured twice is written down.
#pragma once

#include <span>
#include <string>

#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// Readings and what messages call the place they come from.
struct PlacedReadings {
    std::span<const Reading> rows;
    std::string place;
};

/// Throws Error(Fault::data), one line for every run of doubles, where a row stands twice.
void refuse_doubles(const PlacedReadings&);
/// The same where a later row stands among the earlier ones. `mend` says what to do about it.
void refuse_doubles(const PlacedReadings& earlier, const PlacedReadings& later, const std::string& mend);

}  // namespace fogproof::pack
