// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Finds the picture inside a scan that also shows its holder, film edge, perforations and neighbours.
#pragma once

#include <array>
#include <optional>
#include <vector>

namespace fogproof {

/// A small picture of the scan in densities, row by row.
struct SmallScan {
    int width = 0, height = 0;
    std::vector<float> density;
};

/// Sides in this order everywhere.
enum Side : std::size_t { kTop, kBottom, kLeft, kRight };

struct FoundFrame {
    /// Distance of the frame's sides from the same sides of the scan, in pixels of the small picture, drawn
    /// in so far that only picture lies inside even where the frame is askew.
    std::array<double, 4> inset{};
    std::optional<double> clear;          ///< density of the clear film around the frame, where any was seen
    std::array<double, 4> clear_depth{};  ///< how far it reaches out from each side
    double degrees_askew = 0;
};

/// The frame, if straight edges are seen on two opposite or on three sides at least.
///
/// Around a picture lies background: film that is as clear as film can be, bare light (perforations, no
/// film), or an opaque holder. From every side of the scan lines run inwards until background ends for good;
/// where most of them end on one straight line, that is a side of the frame. Dust, edge printing, and deep
/// shadows of the picture that touch its edge end some lines elsewhere; they are outvoted. What is clear is
/// not known beforehand: every density that occurs often among the thin ones is tried, and the densest that
/// yields a frame surrounded by itself and holding nothing thinner is taken.
///
/// Not modelled: frames turned by more than about 5 degrees, rounded or filed-out masks, more than one
/// picture.
[[nodiscard]] std::optional<FoundFrame> frame_in(const SmallScan&);

/// How far clear film of this density reaches out from each side of a given upright frame.
[[nodiscard]] std::array<double, 4> clear_around(const SmallScan&, const std::array<double, 4>& inset,
                                                 double clear);

}  // namespace fogproof
