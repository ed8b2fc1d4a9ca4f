// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From the edges that are seen to the bounds of all steps, those included that have merged into black or
// white.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/step_edges.hpp"

namespace fogproof::reading {

/// A regular row of edges: the k-th at phase + k * pitch.
struct Pitch {
    double phase = 0, pitch = 0;
    int last = 0;    ///< k of the last edge seen; the first one's is 0
    int edges = 0;   ///< edges that keep to it
    double off = 0;  ///< how far they lie off their places, root mean square, in pitches
    [[nodiscard]] double at(int k) const { return phase + k * pitch; }
};
/// The pitch that carries the edges' weight; nothing when none does.
[[nodiscard]] std::optional<Pitch> regular_pitch(std::span<const Edge>);

/// Where the steps can be: the run of paper between two ends.
struct Run {
    double start = 0, end = 0;
    bool open_start = false, open_end = false;  ///< an end at which the last tone goes over into the lid's
    bool hidden = false;                        ///< and does so unseen
    double reach_start = 0, reach_end = 0;      ///< how far the picture goes on there
};

/// A run of steps, by their numbers among the bounds from 0, both included.
struct StepRange {
    int first, last;
};
struct Bounds {
    std::vector<double> at;          ///< one more than there are steps
    int beyond = 0;                  ///< steps that are taken to lie past an open end
    bool even = true;                ///< a regular pitch was found
    bool open = false;               ///< counted up to an end at which there may be more
    bool exact = false;              ///< the pitch is as regular as a printed wedge's
    bool beyond_at_start = false;    ///< that end is the run's start
    std::vector<StepRange> alike{};  ///< steps without an edge between them, told apart by length alone
    bool elsewhere = false;          ///< they may have merged at the other end instead
    /// Plain paper past the first and the last step, in pitches; nothing where it is too little to be a step.
    double left_before = 0, left_after = 0;
};
/// The bounds, or what is wrong as one phrase: found, and what is allowed.
using BoundsOrFault = std::variant<Bounds, std::pair<std::string, std::string>>;
[[nodiscard]] BoundsOrFault step_bounds(std::span<const Edge>, const Run&, std::optional<int> steps);

}  // namespace fogproof::reading
