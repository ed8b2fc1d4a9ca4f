// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Exposures of one drawn scene, which differ in their grain alone, their scans, and a print of one on a
// flatbed. Outside source: the variance of grain grows as density (Nutting's law, T. H. James, The Theory of
// the Photographic Process, from memory).
#pragma once

#include "registration/grey_image.hpp"
#include "registration/placing.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

using registration::FilmEdges;
using registration::GreyImage;
using registration::NegativeView;
using scan::ReflectionImage;
using scan::SmallNegative;

inline constexpr int kFilmWide = 840, kFilmHigh = 600, kClearFilm = 10, kGlass = 60;

// Hills under an even sky: density of the scene on film, within its frame.
[[nodiscard]] double scene(double x, double y);

[[nodiscard]] GreyImage grain_of(unsigned seed, int wide, int high);

// An exposure of the scene with grain of its own and clear film around it.
inline constexpr double kUsualGrain = 0.01;  // density, at density 1
[[nodiscard]] GreyImage exposure(unsigned grain_seed, double size = kUsualGrain);

// The scan of it, with noise of the scanner as a share of its full light.
[[nodiscard]] NegativeView scanned(const GreyImage& film, double noise);
// The same, cut to the frame.
[[nodiscard]] NegativeView scanned_without_clear_film(const GreyImage& film, double noise);

// Its print on a flatbed: a paper's curve, a white border and a dark lid, a little blur and noise.
[[nodiscard]] ReflectionImage print_of(const GreyImage& film);

inline constexpr double kScannerNoise = 0.0003;  // of full light; 20 codes of 65535

}  // namespace fogproof::tests
