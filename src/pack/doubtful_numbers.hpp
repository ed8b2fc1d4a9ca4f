// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The numbers of a pack that may be others, for everybody who moves or draws them.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

struct DoubtfulNumber {
    std::string name;  ///< as in Pack::knowledge
    /// Puts it so many of its deviations from where it stood, within its range; by its logarithm where it
    /// goes_by_factor().
    std::function<void(Pack&, double)> move;
};

/// Those with a deviation that is_moved(), and of filters all but their grade.
[[nodiscard]] std::vector<DoubtfulNumber> doubtful_numbers(const Pack&);

}  // namespace fogproof::pack
