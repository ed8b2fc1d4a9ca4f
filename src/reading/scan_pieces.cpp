// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/scan_pieces.hpp"

#include <algorithm>
#include <cmath>

#include "fogproof/base/error.hpp"
#include "reading/page_order.hpp"
#include "reading/scanner_bed.hpp"

namespace fogproof::reading {
namespace {

// Smaller things on the lid are dust, threads, clips: slips of 5 mm are a little more of a lid of 297 by 216.
constexpr double kSmallestShare = 0.0003;
// Judgement, in density: a lid below it is white, and paper on it may be as white.
constexpr double kWhiteLid = 0.3;

double area(const StripPlace& place) {
    return place.length * place.width;
}

// Tones of a print that are as dense as the lid part its picture into islands.
bool lies_within(const StripPlace& inner, const StripPlace& outer) {
    if (area(inner) >= area(outer)) return false;
    const auto corners = inner.corners(0, inner.length, 0, inner.width);
    const double slack = 0.05 * std::max(inner.length, inner.width);
    return std::ranges::all_of(corners, [&](const auto& corner) {
        const auto [u, v] = outer.uv(corner.first, corner.second);
        return u > -slack && v > -slack && u < outer.length + slack && v < outer.width + slack;
    });
}

}  // namespace

bool ScanPieces::on_white_lid() const {
    return lid && *lid < kWhiteLid;
}

const ScanPiece& ScanPieces::numbered(int number, const std::string& place) const {
    if (number < 1 || std::size_t(number) > all.size())
        throw Error(Fault::data, place, "piece " + std::to_string(number) + " is not on the scan",
                    all.empty() ? "pieces that stand out from the lid, and none does"
                                : "1 to " + std::to_string(all.size()) + ", as --picture numbers them");
    return all[std::size_t(number - 1)];
}

ScanPieces pieces_on(const ReflectionImage& image, const Region& part) {
    const ReflectionImage seen = part_of(image, part);
    const CoarseImage blocks = coarse(seen);
    const auto bed = scanner_bed(blocks);
    const double width = part.width, height = part.height;
    std::vector<StripPlace> places =
        bed ? places_on(*bed, blocks)
            : std::vector{StripPlace{width / 2, height / 2, 0, width * 0.98, height * 0.98}};
    const std::vector<StripPlace> all = places;
    std::erase_if(places, [&](const StripPlace& place) {
        return area(place) < kSmallestShare * width * height ||
               std::ranges::any_of(all, [&](const StripPlace& outer) { return lies_within(place, outer); });
    });
    ScanPieces found;
    found.blur = blocks.block;
    if (bed) found.lid = bed->density;
    const ScanOrigin origin{0, 0, image.scan_pixels};
    for (StripPlace& place : places) {
        place.middle_x += part.left, place.middle_y += part.top;
        found.all.push_back({0, place, origin.corners(place.corners(0, place.length, 0, place.width))});
    }
    sort_as_a_page(found.all);
    for (std::size_t i = 0; i < found.all.size(); ++i) found.all[i].number = int(i + 1);
    return found;
}

ReflectionImage part_of(const ReflectionImage& image, const Region& part) {
    ReflectionImage made{part.width, part.height, image.scan_pixels};
    for (int y = part.top; y < part.top + part.height; ++y)
        for (int x = part.left; x < part.left + part.width; ++x) {
            made.light.push_back(image.light_at(x, y));
            made.clipped.push_back(image.clipped_at(x, y));
        }
    return made;
}

Region region_around(const std::array<ScanPoint, 4>& corners) {
    double left = 1e300, top = 1e300, right = -1e300, bottom = -1e300;
    for (const auto& [x, y] : corners) {
        left = std::min(left, x), right = std::max(right, x);
        top = std::min(top, y), bottom = std::max(bottom, y);
    }
    const int from_x = int(std::lround(left)), from_y = int(std::lround(top));
    return {from_x, from_y, int(std::lround(right)) - from_x, int(std::lround(bottom)) - from_y};
}

}  // namespace fogproof::reading
