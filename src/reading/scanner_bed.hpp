// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What lies behind the strips: the lid of the scanner, its evenness, and the things that stand out from it.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/strip_reading.hpp"
#include "reading/turned_rectangle.hpp"
#include "scan/reflection_image.hpp"

namespace fogproof::reading {

/// Blocks of the image, each at the mean of its light, in density.
struct CoarseImage {
    int width = 0, height = 0, block = 1;
    std::vector<double> density{};
    [[nodiscard]] std::size_t index(int x, int y) const {
        return std::size_t(y) * std::size_t(width) + std::size_t(x);
    }
    [[nodiscard]] double at(int x, int y) const { return density[index(x, y)]; }
};
[[nodiscard]] CoarseImage coarse(const ReflectionImage&);

/// How the light of the scanner falls off: a surface of second order in density, zero in the middle.
struct Evenness {
    int width = 1, height = 1;
    std::array<double, 5> terms{};  ///< x, y, x^2, xy, y^2; the longer side runs over 2 units
    [[nodiscard]] double at(double x, double y) const;
    /// Darkest minus lightest place.
    [[nodiscard]] double span() const;
};

struct ScannerBed {
    double density;  ///< of the lid in the middle, above full scale
    double noise;    ///< standard deviation of a coarse block
    Evenness evenness;
};
/// The lid, when it fills most of the rim of the image.
[[nodiscard]] std::optional<ScannerBed> scanner_bed(const CoarseImage&);
/// How much denser each block is than the lid there, row by row.
[[nodiscard]] std::vector<double> apart_from(const ScannerBed&, const CoarseImage&);
/// The fall-off as patches of one even density show it; a plane. For scans whose lid is black or out of
/// sight.
[[nodiscard]] std::optional<Evenness> evenness_of_patches(const ReflectionImage&, std::span<const Region>);

/// How far a place reads denser than it is.
struct ApartAt {
    double x, y, density;
};
/// The fall-off through places of known densities, a plane, where three or more of them lie well apart in
/// both directions.
[[nodiscard]] std::optional<Evenness> evenness_of_known(const ReflectionImage&, std::span<const ApartAt>);

/// Connected places that stand out from the lid, as the smallest rectangles around them.
[[nodiscard]] std::vector<StripPlace> places_on(const ScannerBed&, const CoarseImage&);

}  // namespace fogproof::reading
