// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Packs that a pack may be: drawn from the joint normal of all that is doubtful about it, as its last fit
// left it. Numbers that go_by_factor() are drawn by their logarithm; what leaves a number's range stops at
// its end. No generator or distribution of the standard library takes part, since those differ from machine
// to machine.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

struct PackDraw {
    Pack pack;
    double sheet;   ///< of one print on it, in standard deviations of what sheets differ by in all tones
    double unread;  ///< in standard deviations: by what a way of developing nobody read departs from the laws
    double between;          ///< -1/2 to 1/2: where the right exposure lies between two bands of a test strip
    double today = 0;        ///< in standard deviations: of what a strip of today leaves open about the light
    double sheet_light = 0;  ///< the same of what they differ by in light
};

/// So many draws, each as likely as the next. Every single doubt is spread evenly over its normal
/// distribution (a Latin hypercube), with mean 0 and its own deviation exactly, so that few draws do. The
/// draws of one set are the same for everybody who asks; another set is independent of it. What contradicts
/// itself (paper_model() throws) is drawn anew; where that keeps failing, the draw is taken nearer to the
/// pack.
[[nodiscard]] std::vector<PackDraw> draws_of(const Pack&, std::size_t count, std::uint64_t set = 0);

}  // namespace fogproof::pack
