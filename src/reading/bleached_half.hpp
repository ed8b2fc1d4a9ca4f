// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which of two halves of a print was bleached: the one that is lighter wherever both hold the same tone of
// the negative. Where that does not show, nobody guesses.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/half_side.hpp"
#include "reading/print_curve.hpp"
#include "registration/frame_warp.hpp"

namespace fogproof::reading {

struct HalfSeen {
    const PrintCurve& curve;
    std::optional<double> border;      ///< density of its unexposed border
    std::array<ScanPlace, 4> corners;  ///< of what it shows of the frame
};

struct HalfAsked {
    std::optional<HalfSide> bleached{};  ///< as it is told
    bool is_evened = true;               ///< the scanner's light, between both halves too
};

/// 0 or 1. Throws Error(Fault::data), with `place` in front, where neither tones nor words tell, and for
/// words that do not fit how the halves lie; a warning says where words and tones contradict each other.
[[nodiscard]] std::size_t bleached_half(const std::array<HalfSeen, 2>& halves, const HalfAsked& asked,
                                        const std::string& place, std::vector<std::string>& warnings);

}  // namespace fogproof::reading
