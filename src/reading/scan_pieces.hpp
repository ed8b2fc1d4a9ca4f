// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The pieces that lie on a flatbed: whatever stands out from its lid, numbered as one reads a page.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/region.hpp"
#include "fogproof/rooms.hpp"
#include "reading/scan_origin.hpp"
#include "reading/turned_rectangle.hpp"
#include "scan/reflection_image.hpp"

namespace fogproof::reading {

struct ScanPiece {
    int number = 0;      ///< from 1
    StripPlace place{};  ///< in pixels of the image
    std::array<ScanPoint, 4> corners{};
};

struct ScanPieces {
    std::vector<ScanPiece> all{};
    std::optional<double> lid{};  ///< its density; nothing where no lid is seen, and all is one piece
    double blur = 1;              ///< how coarsely places are known, in pixels

    [[nodiscard]] bool on_white_lid() const;
    /// Throws Error(Fault::data) where there is no piece of this number.
    [[nodiscard]] const ScanPiece& numbered(int, const std::string& place) const;
};

/// On an image whose light is evened out, within a part of it.
[[nodiscard]] ScanPieces pieces_on(const ReflectionImage&, const Region& part);

/// A part of the image as one of its own.
[[nodiscard]] ReflectionImage part_of(const ReflectionImage&, const Region&);

/// The smallest upright rectangle of the scan around the corners.
[[nodiscard]] Region region_around(const std::array<ScanPoint, 4>&);

}  // namespace fogproof::reading
