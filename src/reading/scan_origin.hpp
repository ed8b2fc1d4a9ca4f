// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where a part of a scan that is looked at lies in the scan, for corners and messages in the scan's pixels.
#pragma once

#include <array>
#include <string>
#include <utility>

#include "base/words.hpp"
#include "fogproof/rooms.hpp"
#include "reading/strip_reading.hpp"
#include "reading/turned_rectangle.hpp"

namespace fogproof::reading {

using Corners = std::array<std::pair<double, double>, 4>;

struct ScanOrigin {
    int left = 0, top = 0;   ///< of the part, in pixels of the image that is read
    double scan_pixels = 1;  ///< of the scan, to one of those

    [[nodiscard]] ScanPoint point(std::pair<double, double> at) const {
        return {(at.first + left) * scan_pixels, (at.second + top) * scan_pixels};
    }
    [[nodiscard]] std::array<ScanPoint, 4> corners(const Corners& all) const {
        return {point(all[0]), point(all[1]), point(all[2]), point(all[3])};
    }
    /// The middle, in words: "640, 211".
    [[nodiscard]] std::string words(const Corners& c) const {
        const auto [x, y] = point({(c[0].first + c[2].first) / 2, (c[0].second + c[2].second) / 2});
        return decimal(x, 0) + ", " + decimal(y, 0);
    }
    [[nodiscard]] std::string words(const StripPlace& place) const {
        return words(place.corners(0, place.length, 0, place.width));
    }
};

}  // namespace fogproof::reading
