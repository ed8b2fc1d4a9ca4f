// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The handwork of a whole print over its frame, and its single works: what was burnt, what was held back.
#pragma once

#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/print_reading.hpp"

namespace fogproof::reading {

/// One place that a hand worked on.
struct WorkedPlace {
    double stops;                     ///< above 0: more light; below: less light, or bleached locally
    double share;                     ///< of the frame
    double left, top, right, bottom;  ///< its box, parts of the frame
    double across, down;              ///< its middle, parts of the frame
};

struct HandworkMap {
    int width = 0, height = 0;   ///< over the upright frame
    std::vector<float> stops{};  ///< row by row; 0 where nothing was done; beyond what is seen as beside it
    double unseen = 0;           ///< share of the frame that no piece shows and that has light by that
    std::vector<WorkedPlace> places{};  ///< the largest first
    /// The most light that was added, or held back, in stops; 0 for none.
    [[nodiscard]] double most_added() const;
    [[nodiscard]] double most_held_back() const;
};

[[nodiscard]] HandworkMap handwork_map(const PrintReading&);

/// "burnt by 0.5 stop at the top, 31 % of the frame"
[[nodiscard]] std::string words_for(const WorkedPlace&);

}  // namespace fogproof::reading
