// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Finds the picture inside a scan that also shows its holder, film edge, perforations and neighbours.
#pragma once

#include <array>
#include <optional>

#include "fogproof/rooms.hpp"
#include "scan/frame_sides.hpp"

namespace fogproof::scan {

struct FilmSurvey {
    /// The frame, as the distance of its sides from the same sides of the scan in pixels of the small
    /// picture, drawn in so far that only picture lies inside even where the frame is askew. Only when
    /// straight edges are seen on two opposite sides at least.
    std::optional<std::array<double, 4>> inset;
    std::optional<double> clear;  ///< density of the clear film around the picture, where any was seen
    std::array<double, 4> clear_depth{};  ///< how far it reaches out from each side of the frame
    double degrees_askew = 0;  ///< clockwise: the middle one of its sides, so that no single one decides
    std::array<bool, 4> on_holder{};  ///< sides on which the frame seems to run into the holder
    bool is_partly_hidden =
        false;  ///< shadows as clear as the film hide an edge: the frame may be wrong there
};

/// Around a picture lies background: film that is as clear as film can be, bare light (perforations, no
/// film), or an opaque holder. From every side of the scan lines run inwards until background ends for good;
/// where most of them end on one straight line, that is a side of the frame. Dust, edge printing, and deep
/// shadows of the picture that touch its edge end some lines elsewhere; they are outvoted. What is clear is
/// not known beforehand: every density that occurs often among the thin ones is tried, and the densest that
/// yields a frame surrounded by itself and holding nothing thinner is taken.
///
/// A holder that is thin, or no denser than the picture, is told by clear film that parts it from the picture
/// (rim_holder.hpp).
///
/// A frame that lies askew is told with its angle, and whoever asked may turn the scan and search again
/// (scan_framing.hpp). Not modelled: frames turned by more than about 5 degrees, rounded or filed-out masks,
/// more than one picture.
[[nodiscard]] FilmSurvey surveyed(const SmallScan&);

/// How far clear film of this density reaches out from each side of a given upright frame.
[[nodiscard]] std::array<double, 4> clear_around(const SmallScan&, const std::array<double, 4>& inset,
                                                 double clear);
/// The same drawn in until the outermost line is clear all around, corners and all: a holder that is straight
/// reaches into them where the scan was turned.
[[nodiscard]] std::array<double, 4> clear_all_round(const SmallScan&, const std::array<double, 4>& inset,
                                                    double clear, std::array<double, 4> reach);

}  // namespace fogproof::scan
