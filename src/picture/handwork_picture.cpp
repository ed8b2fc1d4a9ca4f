// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/handwork_picture.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>
#include <vips/vips8>

#include "base/words.hpp"
#include "picture/canvas.hpp"
#include "picture/level_picture.hpp"
#include "picture/picture_file.hpp"

namespace fogproof::picture {
namespace {

constexpr int kFrameSide = 1200, kAround = 16, kLine = 6;
constexpr Type kTitle{20, true}, kSentence{16, false}, kStopsType{18, true};
constexpr Lab kSheetColour{97, 0, 0}, kWordInk{10, 0, 0};
// The print is shown pale, so that tints and words stand out; tints for a whole stop, and their most.
constexpr double kPaleFrom = 45, kPaleTo = 96, kTintOfStop = 45, kMostTint = 60;
// Lines of equal light, stops apart.
constexpr double kContour = 0.25;

// Lightness of the print at a part of its frame; nothing where no piece shows it.
std::optional<double> lightness_at(const PrintReading& read, const ReflectionImage& image, double across,
                                   double down) {
    for (const PrintPiece& piece : read.pieces) {
        const PlacedFrame& frame = piece.frame;
        const double x = std::lerp(frame.edges.left, frame.edges.right, across) * frame.grid.width,
                     y = std::lerp(frame.edges.top, frame.edges.bottom, down) * frame.grid.height;
        if (x < frame.shown.left || x > frame.shown.right || y < frame.shown.top || y > frame.shown.bottom)
            continue;
        const ScanPlace place = frame.warp.at(frame.grid.place_of(x, y));
        if (!(place.x >= 0 && place.y >= 0 && place.x < image.width && place.y < image.height)) continue;
        return lab({0, std::clamp(double(image.light_at(int(place.x), int(place.y))), 0.0, 1.0), 0}).l;
    }
    return std::nullopt;
}

// At a place in the map's pixels, straight between them.
double stops_at(const HandworkMap& map, double x, double y) {
    const double u = std::clamp(x - 0.5, 0.0, map.width - 1.0),
                 v = std::clamp(y - 0.5, 0.0, map.height - 1.0);
    const int left = std::min(int(u), std::max(0, map.width - 2)),
              top = std::min(int(v), std::max(0, map.height - 2)), right = std::min(left + 1, map.width - 1),
              bottom = std::min(top + 1, map.height - 1);
    const auto stops = [&map](int column, int row) {
        return double(map.stops[std::size_t(row) * std::size_t(map.width) + std::size_t(column)]);
    };
    return std::lerp(std::lerp(stops(left, top), stops(right, top), u - left),
                     std::lerp(stops(left, bottom), stops(right, bottom), u - left), v - top);
}

// Which step between lines of equal light a place lies in.
int step_of(double stops) {
    return int(std::floor(stops / kContour + 0.5));
}

Lab shown(std::optional<double> lightness, double stops, bool is_line) {
    const double tint = std::min(kMostTint, kTintOfStop * std::abs(stops));
    const double pale = lightness ? std::lerp(kPaleFrom, kPaleTo, *lightness / 100) : kPaleTo;
    const double l = is_line ? 30 : pale - 0.25 * tint;
    return stops > 0 ? Lab{l, 0, -tint} : Lab{l, 0.6 * tint, 0.8 * tint};
}

}  // namespace

void save_handwork_mask(const HandworkMap& map, MaskOf what, WholeFile& file) {
    const bool is_added = what == MaskOf::added_light;
    const double most = is_added ? map.most_added() : map.most_held_back();
    std::vector<std::uint16_t> codes;
    for (const float stops : map.stops) {
        const double part = most > 0 ? std::clamp((is_added ? 1 : -1) * double(stops) / most, 0.0, 1.0) : 0;
        codes.push_back(std::uint16_t(std::lround(65535 * part)));
    }
    save_levels({map.width, map.height, std::move(codes)}, file);
}

void save_handwork_picture(const HandworkMap& map, const PrintReading& read, const ReflectionImage& image,
                           const std::string& title, WholeFile& file) {
    const OutputProfile profile = OutputProfile::named("srgb");
    const auto code = [&](const Lab& colour) {
        return profile.encode({&colour, 1}, Rendering::absolute, {100, 0, 0});
    };
    std::vector<std::string> lines{title};
    for (const WorkedPlace& place : map.places) {
        std::string words = reading::words_for(place);
        words[0] = char(std::toupper(words[0]));
        lines.push_back(words + ".");
    }
    if (map.places.empty()) lines.emplace_back("No handwork is seen.");
    lines.push_back(
        "Blue: more light than the rest of the frame. Orange: less light, or bleached locally. A line for "
        "each quarter of a stop.");
    const double scale = double(kFrameSide) / std::max(map.width, map.height);
    const int wide = int(map.width * scale), high = int(map.height * scale);
    const auto type = [](std::size_t line) { return line == 0 ? kTitle : kSentence; };
    int top = kAround;
    for (std::size_t i = 0; i < lines.size(); ++i) top += Canvas::height_of(lines[i], wide, type(i)) + kLine;
    top += kAround;
    Canvas canvas(wide + 2 * kAround, top + high + kAround, 3, 8, code(kSheetColour));
    int y = kAround;
    for (std::size_t i = 0; i < lines.size(); ++i)
        y += canvas.write({kAround, y, wide, 0}, lines[i], type(i), code(kWordInk)) + kLine;

    std::vector<std::optional<double>> lightness;
    for (int row = 0; row < high; ++row)
        for (int column = 0; column < wide; ++column)
            lightness.push_back(lightness_at(read, image, (column + 0.5) / wide, (row + 0.5) / high));
    const auto at = [&](int column, int row) {
        return std::size_t(std::min(row, high - 1)) * std::size_t(wide) +
               std::size_t(std::min(column, wide - 1));
    };
    std::vector<double> stops;
    for (int row = 0; row < high; ++row)
        for (int column = 0; column < wide; ++column)
            stops.push_back(stops_at(map, (column + 0.5) / scale, (row + 0.5) / scale));
    // A line stands where the next pixels lie in another step and the print shows both.
    const auto is_line_between = [&](std::size_t here, std::size_t there) {
        return lightness[here] && lightness[there] && step_of(stops[here]) != step_of(stops[there]);
    };
    std::vector<Lab> colours;
    for (int row = 0; row < high; ++row)
        for (int column = 0; column < wide; ++column) {
            const std::size_t here = at(column, row);
            colours.push_back(shown(
                lightness[here], stops[here],
                is_line_between(here, at(column + 2, row)) || is_line_between(here, at(column, row + 2))));
        }
    canvas.paste({kAround, top, wide, high}, profile.encode(colours, Rendering::absolute, {100, 0, 0}));
    for (const WorkedPlace& place : map.places) {
        const std::string words = (place.stops > 0 ? "+" : "\u2212") + fixed(std::abs(place.stops), 1);
        const int wide_of = Canvas::width_of(words, kStopsType);
        const int left = std::clamp(int(place.across * wide) - wide_of / 2, 4, wide - wide_of - 4);
        canvas.fill({kAround + left - 4, top + int(place.down * high) - 13, wide_of + 8, 26},
                    code(kSheetColour));
        canvas.write({kAround + left, top + int(place.down * high) - 10, 0, 0}, words, kStopsType,
                     code(kWordInk));
    }
    PictureOptions options;
    options.bits = 8;
    const vips::VImage picture = canvas.picture();
    save_picture([&picture] { return picture; }, file, profile, options);
}

}  // namespace fogproof::picture
