// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a printer's own shortest time for full black through clear film says of a pack: its seconds, where it
// has none, or how far they are from those that it has.
#pragma once

#include "fogproof/pack/grades.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/print/working_curve.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

struct BlackTime {
    Seconds time;
    double grade = kUnfilteredGrade;
    Carrier through{Carrier::Held::clear_film, 0};
};

/// Anchors a pack by the black time at a grade.
[[nodiscard]] Pack anchored_by_black(Pack, const BlackTime&);

/// True of a pack with an anchor whose speed somebody measured or stated.
[[nodiscard]] bool has_own_seconds(const Pack&);

/// A black time beside the seconds of such a pack.
struct BesideOwnSeconds {
    Interval own_s;  ///< of full black by the pack, through what the black time was taken through; 95 %
    double stops;    ///< by which the black time is longer
    bool agrees;     ///< within both doubts, 95 %
};
[[nodiscard]] BesideOwnSeconds beside_own_seconds(const Pack&, const BlackTime&);

}  // namespace fogproof::choose
