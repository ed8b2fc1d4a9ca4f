// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A frame's place on a scan, from a rough one: the warp under which the scan's blocks look most like the
// negative's, by Gauss-Newton from coarse to fine: first by blocks that have a texture, then by all.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "registration/agreement.hpp"
#include "registration/blur_pull.hpp"
#include "registration/coarse_place.hpp"

namespace fogproof::registration {

/// A scan and a negative at one size of pixels: about as many lie along the frame in both.
struct Level {
    GreyImage negative;  ///< what a print of it would look like, 0 to 1; light where the negative is dense
    GreyImage scan;      ///< lightness, 0 to 1
    double pitch;        ///< of the scan's pixels, in pixels of the finest scan
};
/// From the finest to the coarsest.
[[nodiscard]] std::vector<Level> levels(GreyImage negative, GreyImage scan);

struct FinePlace {
    FrameWarp warp;       ///< to pixels of the finest scan
    double corner_doubt;  ///< standard deviation of the worst corner of the frame, in these pixels
    double shown_doubt;   ///< the same of what the print shows
    double blur;          ///< of the scan against the negative, pixels of the negative
    GreyImage expected;   ///< the negative through the print's tone curve, blurred like the scan
};

/// From a rough place that counts pixels of the finest scan; its matches, good to `match_doubt` such pixels,
/// hold the warp where blocks say little. Nothing where too few blocks look alike.
[[nodiscard]] std::optional<FinePlace> fine_place(const std::vector<Level>&, const CoarsePlace& near,
                                                  double match_doubt);

/// A place that was found, held by the almost even blocks too: film grain and slow tones hold corners that no
/// texture is near. What the enlarger's and the scanner's blur could explain draws nothing. `softer`: the
/// finest level's negative through an enlarger that blurs its light by a unit; `part`: what the print shows
/// of the frame. Another print, a border or a hand on the scan must lie outside the part. Of what lies beyond
/// `side` nothing is asked at all: a print that was cut goes on there beside its place, much the same. Where
/// the blocks contradict each other it stays as it was.
[[nodiscard]] FinePlace settled(FinePlace, const Level& finest, const GreyImage& softer,
                                const FramePart& part, const CoarsePlace& near, double match_doubt,
                                const std::optional<FramePart>& side = std::nullopt);

}  // namespace fogproof::registration
