// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Whether a print shows the very grain of a negative. Another exposure of the same scene shows the same
// picture, perhaps in the same place, but its grain is its own. Where a negative is most even hardly more
// than grain is left of it, and a print of it shows the same there.
#pragma once

#include <span>

#include "fogproof/rooms.hpp"
#include "registration/agreement.hpp"
#include "registration/scan_noise.hpp"
#include "registration/seen_frame.hpp"
#include "scan/small_negative.hpp"

namespace fogproof::registration {

struct GrainShare {
    double share = 1;     ///< of the finest detail of even places, against the same elsewhere
    double error = 1;     ///< its standard deviation
    double expected = 1;  ///< the share if it is this negative: less than 1 where its scan is noisy
};

struct GrainShown : GrainShare {  ///< of the most even places
    GrainShare least{};           ///< of as many as show most clearly that there is none
    double size = 1;       ///< of that detail as the print should show it, rms values (lightness, 0 to 1)
    bool is_grain = true;  ///< not detail of the picture, which another exposure would show as well
};

/// `expected`: the negative as this print would show it, blurred by `blur` pixels like its scan; within
/// `part` of the grid.
[[nodiscard]] GrainShown grain_shown(const GreyImage& expected, double blur, const SmallNegative&,
                                     const ScanNoise&, const SeenFrame&, const FramePart& part);

/// Whether so much is less than a print of this very negative shows, all of its pieces taken together;
/// `is_coarsely_coded`: the print's scan.
[[nodiscard]] bool is_other_grain(std::span<const GrainShown> pieces, bool is_coarsely_coded);
/// Whether it is so much that this negative is no other exposure of the scene. Where neither holds, grain
/// does not tell.
[[nodiscard]] bool is_own_grain(std::span<const GrainShown> pieces, bool is_coarsely_coded);

}  // namespace fogproof::registration
