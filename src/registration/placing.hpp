// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Finds the frame of a negative on the scan of its print, or says why it cannot.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "registration/agreement.hpp"
#include "registration/film_edges.hpp"
#include "registration/frame_warp.hpp"
#include "registration/negative_view.hpp"
#include "registration/tied_places.hpp"
#include "scan/reflection_image.hpp"
#include "scan/small_negative.hpp"

namespace fogproof::registration {

struct PlacedFrame {
    FrameWarp warp;          ///< of the upright frame, to pixels of the reflection image
    FrameGrid grid;          ///< about one pixel of it to one of the image
    SmallNegative negative;  ///< at this grid
    double blur;             ///< of the print's scan against it, pixels of the grid
    FilmEdges edges;         ///< of the frame on this grid
    FramePart shown;         ///< of the grid: what the print shows
    bool is_mirrored;        ///< print and negative are mirror images of each other
    bool is_own_grain;       ///< that the print is not of another exposure of the scene is told by its grain
    double corner_doubt;     ///< standard deviation of the worst corner, pixels of the image
    /// Corners of what the print shows, and of the whole frame (top left, top right, bottom right, bottom
    /// left), in pixels of the image.
    [[nodiscard]] std::array<ScanPlace, 4> shown_corners() const;
    [[nodiscard]] std::array<ScanPlace, 4> corners() const;
};

/// What is said of prints that are refused, whole or in pieces.
inline constexpr const char
    *kNotFound = "the negative's picture is not found on the print",
    *kNotAtTies = "the negative's picture is not found at the points of --tie",
    *kLikeInParts =
        "only parts of the print match this negative; another exposure "
        "of the same scene?",
    *kOtherRegions =
        "whole regions of the print show something else than this negative; "
        "another exposure of the same scene, or something that lies on the print?",
    *kOtherGrain =
        "the print's grain is not this negative's; another exposure of the "
        "same scene, or a scan saved with strong compression?",
    *kNotCut =
        "one piece shows both halves; a print with a bleached half is cut between the "
        "halves first, and one without is read without --halves",
    *kPrintAsked =
        "a scan of a print of this negative, most of its frame in sight and "
        "within 8 degrees of straight (--halves for a print that was cut in two; "
        "--tie where you can tell the place)";

/// Looked for where tie points tell, if there are any. Throws Error(Fault::data), with `place` in front, for
/// a print on which the negative is not found, that shows something else, or that does not hold it to a pixel
/// or two; Error(Fault::usage) for tie points that tell no place.
[[nodiscard]] PlacedFrame placed_frame(const ReflectionImage& print, const NegativeView&,
                                       const std::string& place, std::span<const TiePoint> = {});

}  // namespace fogproof::registration
