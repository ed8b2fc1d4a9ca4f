// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/handwork_map.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/frame_side.hpp"
#include "base/quantile.hpp"
#include "base/stop.hpp"
#include "base/words.hpp"
#include "reading/flatbed_doubt.hpp"

namespace fogproof::reading {
namespace {

constexpr int kLongSide = 512;
// Half width of the mean that softens a map, pixels of it, and how often it is taken. Judgement.
constexpr int kSoftened = 2, kSofteningRounds = 3;
// Longer sides of the frame, beyond which a place counts as not seen: prints are trimmed, and rims are not
// read.
constexpr double kBesideSeen = 0.03;
// Light that is too little to be a hand's, and the share of the frame below which a place is a fault of the
// paper or of the fit. Judgement.
constexpr double kLeastStops = 0.15, kLeastPlace = 0.006;
// Light that counts as none; up to twice as much it fades out, so that a mask has no step.
constexpr double kNothing = 0.04;
// The stops of a place are those that so many of its pixels stay below: its rim is soft.
constexpr double kTypical = 0.8;

// D; by so much a flatbed's whites may be off, and less than this a print is uneven by itself.
constexpr double kLeastDensity = kWhitesBesideAPatch;

struct PieceLight {
    const PrintPiece& piece;
    struct Seen {
        double stops;
        double across, down;  ///< parts of the frame: the place itself, or the nearest that the piece shows
        double far;           ///< from there to the place, longer sides of the frame
    };
    [[nodiscard]] Seen at(double across, double down) const {
        const PlacedFrame& frame = piece.frame;
        const double x = std::lerp(frame.edges.left, frame.edges.right, across) * frame.grid.width,
                     y = std::lerp(frame.edges.top, frame.edges.bottom, down) * frame.grid.height;
        const FramePart& shown = frame.shown;
        const double near_x = std::clamp(x, double(shown.left), double(shown.right)),
                     near_y = std::clamp(y, double(shown.top), double(shown.bottom));
        const auto part = [](double at, double from, double to) { return (at - from) / (to - from); };
        return {
            piece.curve.work.grid.at(near_x / piece.ground.side, near_y / piece.ground.side) / kLogPerStop,
            part(near_x / frame.grid.width, frame.edges.left, frame.edges.right),
            part(near_y / frame.grid.height, frame.edges.top, frame.edges.bottom),
            std::hypot(x - near_x, y - near_y) / std::max(frame.grid.width, frame.grid.height)};
    }
};

// Beyond what is seen the light is taken as at the nearest place that is.
void go_on_beside(HandworkMap& map, const std::vector<PieceLight::Seen>& nearest) {
    const std::vector<float> seen = map.stops;
    const auto at = [&map](int x, int y) {
        return std::size_t(std::clamp(y, 0, map.height - 1)) * std::size_t(map.width) +
               std::size_t(std::clamp(x, 0, map.width - 1));
    };
    for (std::size_t i = 0; i < seen.size(); ++i) {
        if (!(nearest[i].far > 0)) continue;
        const int x = int(nearest[i].across * map.width), y = int(nearest[i].down * map.height);
        // The nearest place lies on the rim of what is seen: of the pixels about it one is seen.
        for (const auto& [u, v] :
             {std::pair{0, 0}, {1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {-1, 1}, {1, -1}, {-1, -1}}) {
            const std::size_t beside = at(x + u, y + v);
            if (nearest[beside].far > 0) continue;
            map.stops[i] = seen[beside];
            break;
        }
        if (map.stops[i] != 0 && nearest[i].far > kBesideSeen) map.unseen += 1 / double(seen.size());
    }
}

// Light between the squares of the grid has corners that no hand makes.
void soften(HandworkMap& map) {
    std::vector<float> before = map.stops;
    for (int round = 0; round < kSofteningRounds; ++round)
        for (const bool is_across : {true, false}) {
            std::swap(before, map.stops);
            for (int y = 0; y < map.height; ++y)
                for (int x = 0; x < map.width; ++x) {
                    double sum = 0;
                    for (int by = -kSoftened; by <= kSoftened; ++by) {
                        const int u = std::clamp(is_across ? x + by : x, 0, map.width - 1),
                                  v = std::clamp(is_across ? y : y + by, 0, map.height - 1);
                        sum += double(before[std::size_t(v) * std::size_t(map.width) + std::size_t(u)]);
                    }
                    map.stops[std::size_t(y) * std::size_t(map.width) + std::size_t(x)] =
                        float(sum / (2 * kSoftened + 1));
                }
        }
}

double size_of_frame(const PlacedFrame& frame, bool is_width) {
    return is_width ? (frame.edges.right - frame.edges.left) * frame.grid.width
                    : (frame.edges.bottom - frame.edges.top) * frame.grid.height;
}

// Pixels of one work: side by side, to the same side.
std::vector<std::size_t> joined(const HandworkMap& map, std::vector<char>& taken, std::size_t first) {
    const bool is_added = map.stops[first] > 0;
    std::vector<std::size_t> found{first};
    taken[first] = 1;
    for (std::size_t next = 0; next < found.size(); ++next) {
        const int x = int(found[next]) % map.width, y = int(found[next]) / map.width;
        for (const auto& [u, v] : {std::pair{x - 1, y}, {x + 1, y}, {x, y - 1}, {x, y + 1}}) {
            if (u < 0 || v < 0 || u >= map.width || v >= map.height) continue;
            const auto beside = std::size_t(v) * std::size_t(map.width) + std::size_t(u);
            if (taken[beside] || map.stops[beside] == 0 || (map.stops[beside] > 0) != is_added) continue;
            taken[beside] = 1;
            found.push_back(beside);
        }
    }
    return found;
}

WorkedPlace place_of(const HandworkMap& map, const std::vector<std::size_t>& pixels) {
    WorkedPlace place{0, double(pixels.size()) / double(map.stops.size()), 1, 1, 0, 0, 0, 0};
    std::vector<float> stops;
    for (const std::size_t pixel : pixels) {
        const int column = int(pixel) % map.width, row = int(pixel) / map.width;
        const double across = (column + 0.5) / map.width, down = (row + 0.5) / map.height;
        place.left = std::min(place.left, across), place.right = std::max(place.right, across);
        place.top = std::min(place.top, down), place.bottom = std::max(place.bottom, down);
        place.across += across / double(pixels.size()), place.down += down / double(pixels.size());
        stops.push_back(std::abs(map.stops[pixel]));
    }
    const double typical = double(quantile(stops, kTypical));
    place.stops = map.stops[pixels.front()] > 0 ? typical : -typical;
    return place;
}

// The pixel that a square of a piece lies on, where it lies on the frame.
std::optional<std::size_t> pixel_of(const EvenSquare& square, const PrintPiece& piece,
                                    const HandworkMap& map) {
    const PlacedFrame& frame = piece.frame;
    const auto part = [&](int at, double size, double from, double to) {
        return ((at + 0.5) * piece.ground.side / size - from) / (to - from);
    };
    const double across = part(square.column, frame.grid.width, frame.edges.left, frame.edges.right),
                 down = part(square.row, frame.grid.height, frame.edges.top, frame.edges.bottom);
    if (across < 0 || across >= 1 || down < 0 || down >= 1) return std::nullopt;
    return std::size_t(down * map.height) * std::size_t(map.width) + std::size_t(across * map.width);
}

// D that no hand need have made there: stray light in the scanner differs from place to place, which shows in
// blacks.
double left_open(const EvenSquare& square, const FlatbedDoubt& doubt) {
    return std::hypot(kLeastDensity, by_stray_light(doubt, square.density));
}

// Whether the light of these pixels is a hand's beyond doubt, on one piece at least.
bool stands_out(const HandworkMap& map, const std::vector<std::size_t>& pixels, const PrintReading& read) {
    std::vector<char> there(map.stops.size(), 0);
    for (const std::size_t pixel : pixels) there[pixel] = 1;
    return std::ranges::any_of(read.pieces, [&](const PrintPiece& piece) {
        std::vector<double> light;
        double open = 0, lit = 0;
        for (const EvenSquare& square : piece.ground.squares) {
            if (square.is_clipped) continue;
            const auto pixel = pixel_of(square, piece, map);
            light.push_back(pixel && there[*pixel] ? kLogPerStop * double(map.stops[*pixel]) : 0);
            if (light.back() == 0) continue;
            open += std::pow(left_open(square, read.doubt), 2), ++lit;
        }
        return lit > 0 && piece.curve.work.told_apart(light) >= std::sqrt(open / lit);
    });
}

void find_places(HandworkMap& map, const PrintReading& read) {
    std::vector<char> taken(map.stops.size(), 0);
    for (std::size_t i = 0; i < map.stops.size(); ++i) {
        if (taken[i] || map.stops[i] == 0) continue;
        const auto pixels = joined(map, taken, i);
        const WorkedPlace place = place_of(map, pixels);
        if (place.share >= kLeastPlace && std::abs(place.stops) >= kLeastStops &&
            stands_out(map, pixels, read))
            map.places.push_back(place);
        else
            for (const std::size_t pixel : pixels) map.stops[pixel] = 0;
    }
    std::ranges::stable_sort(map.places, std::ranges::greater{}, &WorkedPlace::share);
}

}  // namespace

double HandworkMap::most_added() const {
    return stops.empty() ? 0 : std::max(0.0, double(*std::ranges::max_element(stops)));
}

double HandworkMap::most_held_back() const {
    return stops.empty() ? 0 : std::max(0.0, -double(*std::ranges::min_element(stops)));
}

HandworkMap handwork_map(const PrintReading& read) {
    const PlacedFrame& first = read.pieces.front().frame;
    const double wide = size_of_frame(first, true), high = size_of_frame(first, false),
                 scale = kLongSide / std::max(wide, high);
    HandworkMap map{std::max(1, int(std::lround(wide * scale))), std::max(1, int(std::lround(high * scale)))};
    std::vector<PieceLight::Seen> nearest;
    for (int y = 0; y < map.height; ++y)
        for (int x = 0; x < map.width; ++x) {
            PieceLight::Seen here{0, 0, 0, HUGE_VAL};
            for (const PrintPiece& piece : read.pieces)
                if (const auto seen = PieceLight{piece}.at((x + 0.5) / map.width, (y + 0.5) / map.height);
                    seen.far < here.far)
                    here = seen;
            const double stops = here.far > 0 ? 0 : here.stops;
            map.stops.push_back(float(stops * std::clamp((std::abs(stops) - kNothing) / kNothing, 0.0, 1.0)));
            nearest.push_back(here);
        }
    find_places(map, read);
    go_on_beside(map, nearest);
    soften(map);
    return map;
}

std::string words_for(const WorkedPlace& place) {
    return std::string(place.stops > 0 ? "burnt by " : "dodged (or bleached locally) by ") +
           fixed(std::abs(place.stops), 1) + " stop " + frame_side(place.across, place.down) + ", " +
           decimal(100 * place.share, 0) + " % of the frame";
}

}  // namespace fogproof::reading
