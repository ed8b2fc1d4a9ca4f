// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/print_reading.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>

#include "base/stop.hpp"
#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/reading_columns.hpp"
#include "reading/bleached_half.hpp"
#include "reading/darks_doubt.hpp"
#include "reading/handwork_map.hpp"
#include "reading/light_density.hpp"
#include "reading/print_border.hpp"
#include "registration/cut_print.hpp"

namespace fogproof::reading {
namespace {

constexpr double kWorthANote = 0.1;  // share of the even ground that is left out
// Work on so much of the frame may be a bath that one part of the sheet was dipped in. Judgement.
constexpr double kMostOfFrame = 0.3;
// Share of a piece's longer side.
constexpr double kLidAround = 0.04;

// What no print has comes of a known density that is told wrong, or of the negative's scan in the print's
// place.
void require_densities_of_prints(const PrintPiece& piece, const std::string& place) {
    const auto column =
        std::ranges::find(reading_columns(), std::string_view("density"), &ReadingColumn::name);
    const auto [lightest, darkest] = std::ranges::minmax(piece.curve.tones, {}, &PrintTone::density);
    if (lightest.density >= column->minimum && darkest.density <= column->maximum) return;
    throw Error(
        Fault::data, place,
        "its tones lie at densities of " + fixed(lightest.density, 2) + " to " + fixed(darkest.density, 2),
        decimal(column->minimum, 2) + " to " + decimal(column->maximum, 2) +
            ", with the scan of the print named first, that of its negative behind --negative, and known "
            "densities as they are");
}

PrintPiece piece_of(const CalibratedScan& scan, PlacedFrame frame, const FilmOverPaper& film,
                    const std::string& place) {
    PrintPiece piece{std::move(frame), {}, {}, {}};
    const EvenGround ground = even_ground(scan, piece.frame);
    std::optional<PrintCurve> curve;
    for (const Unevenness& most : {kEvenGround, kNearlyEvenGround}) {
        piece.ground = ground.within(most);
        curve = print_curve(piece.ground, film);
        if (curve) break;
    }
    if (!curve)
        throw Error(Fault::data, place, "has too few even areas that are sharp and not clipped",
                    "even areas in at least " + std::to_string(kFewestReadTones) + " tones");
    piece.curve = std::move(*curve);
    require_densities_of_prints(piece, place);
    piece.border = border_density(scan, piece.frame, piece.curve.tones.back().density);
    return piece;
}

HalfSeen half_seen(const PrintPiece& piece) {
    return {piece.curve, piece.border, piece.frame.shown_corners()};
}

void note(PrintReading& read, const PrintPiece& piece) {
    if (piece.frame.is_mirrored)
        read.notes.emplace_back(
            "print and negative are mirror images of each other (--mirror turns the negative)");
    if (piece.curve.falloff > 0.01)
        read.notes.push_back("the enlarger's light falls off by " +
                             decimal(piece.curve.falloff / kLogPerStop, 2) +
                             " stop from the middle of the frame to its corners; taken out");
    const double out = left_out(piece);
    if (out > kWorthANote)
        read.notes.push_back(
            decimal(100 * out, 0) +
            " % of the even ground departs from the tone curve (dust, handwork, clipped) and is left out");
    if (!piece.border)
        read.notes.emplace_back("no unexposed border can be told from the lid, so fog is not read");
}

// Once for all pieces, which lay on one scan.
void warn_of_darks(PrintReading& read) {
    for (const PrintPiece& piece : read.pieces)
        if (auto darks = doubt_of_darks(piece.ground)) return read.warnings.push_back(std::move(*darks));
}

std::vector<TiePoint> tie_points(const StripRequest& request, const NegativeView& view,
                                 const ReflectionImage& image) {
    std::vector<TiePoint> points;
    for (const auto& [negative, print] : request.ties) {
        const double wide = image.width * image.scan_pixels, high = image.height * image.scan_pixels;
        if (print.first > wide || print.second > high)
            throw Error(
                Fault::usage, "--tie",
                decimal(print.first, 0) + "," + decimal(print.second, 0) + " lies outside the print's scan",
                "within its " + decimal(wide, 0) + " x " + decimal(high, 0) + " pixels");
        points.push_back({view.place_of(negative.first, negative.second),
                          {print.first / image.scan_pixels, print.second / image.scan_pixels}});
    }
    return points;
}

PrintReading read_off(const CalibratedScan& scan, const StripRequest& request, const NegativeView& view,
                      const FilmOverPaper& film) {
    PrintReading read{{}, scan.notes, scan.known, scan.doubt, scan.pieces.all, scan.warnings};
    const auto add = [&](PlacedFrame frame) {
        read.pieces.push_back(piece_of(scan, std::move(frame), film, request.place));
    };
    const auto ties = tie_points(request, view, scan.image);
    if (request.halves) {
        for (PlacedFrame& half : placed_halves(scan.image, view, request.place, ties)) add(std::move(half));
        if (bleached_half({half_seen(read.pieces[0]), half_seen(read.pieces[1])},
                          {request.bleached, scan.is_evened}, request.place, read.warnings) == 0)
            std::swap(read.pieces[0], read.pieces[1]);
    } else {
        add(placed_frame(scan.image, view, request.place, ties));
    }
    for (const PrintPiece& piece : read.pieces) note(read, piece);
    if (!scan.is_doubted) warn_of_darks(read);  // what the scan told goes before
    if (!read.pieces.front().frame.is_own_grain)
        read.notes.emplace_back(
            "film grain cannot tell this negative from another exposure of the same scene; if there is one, "
            "make sure that this one was printed");
    const bool has_border =
        std::ranges::any_of(read.pieces, [](const PrintPiece& piece) { return piece.border.has_value(); });
    for (const WorkedPlace& place : handwork_map(read).places) {
        read.notes.push_back("the print looks " + words_for(place) + "; left out of the readings");
        // A bath leaves the border of its part lighter, so that no one density is told of the border.
        if (place.share > kMostOfFrame && !request.halves && !has_border)
            read.warnings.push_back(
                "a large part of the print differs from the rest, and so may its border: if that part was "
                "bleached and not " +
                std::string(place.stops > 0 ? "burnt" : "dodged") +
                ", these rows mix both baths; a print that is cut between them is read with --halves");
    }
    return read;
}

// A piece with a rim of lid around it, in which its border ends.
Region around(const ScanPiece& piece, const ReflectionImage& image) {
    const Region seen = region_around(piece.corners);
    const double side = image.scan_pixels;
    const int rim = int(kLidAround * std::max(seen.width, seen.height) / side);
    const int left = std::max(0, int(seen.left / side) - rim), top = std::max(0, int(seen.top / side) - rim);
    return {left, top, std::min(image.width, int((seen.left + seen.width) / side) + rim) - left,
            std::min(image.height, int((seen.top + seen.height) / side) + rim) - top};
}

}  // namespace

double left_out(const PrintPiece& piece) {
    const auto counted = double(std::ranges::count(piece.curve.counted, char(1)));
    return 1 - counted / double(std::max<std::size_t>(piece.ground.squares.size(), 1));
}

PrintReading print_read(const ReflectionImage& image, const StripRequest& request, const NegativeView& view,
                        const FilmOverPaper& film) {
    return read_off(calibrated(image, request), request, view, film);
}

PrintReading print_piece_read(const ReflectionImage& image, const StripRequest& request, int piece,
                              const NegativeView& view, const FilmOverPaper& film) {
    CalibratedScan scan = calibrated(image, request);
    const ScanPiece& there = scan.pieces.numbered(piece, request.place);
    StripRequest how = request;
    how.place += ", piece " + std::to_string(piece);
    const auto told = std::ranges::find(request.pieces, piece, &PieceRequest::number);
    how.halves = told != request.pieces.end() && told->halves;
    if (how.halves && !how.bleached) how.bleached = told->bleached;
    const Region part = around(there, scan.image);
    scan.image = part_of(scan.image, part);
    PrintReading read = read_off(scan, how, view, film);
    for (PrintPiece& each : read.pieces) each.frame.warp = each.frame.warp.within_whole(part.left, part.top);
    read.notes.erase(read.notes.begin(), read.notes.begin() + std::ptrdiff_t(scan.notes.size()));
    read.warnings.erase(read.warnings.begin(), read.warnings.begin() + std::ptrdiff_t(scan.warnings.size()));
    return read;
}

std::vector<Reading> labelled(const PrintReading& read, const Reading& common) {
    std::vector<Reading> rows;
    for (std::size_t i = 0; i < read.pieces.size(); ++i) {
        const PrintPiece& piece = read.pieces[i];
        Reading row = common;
        if (read.pieces.size() > 1) {
            row.strip += i == 0 ? "-before" : "-bleached";
            if (i == 0) row.bleach_s = row.redevelop_s = 0, row.bleach_parts = {};
        }
        for (const PrintTone& tone : piece.curve.tones) {
            row.wedge_density = to_thousandths(tone.over_paper);
            row.density = to_thousandths(tone.density);
            row.density_error = to_thousandths(tone.error);
            rows.push_back(row);
        }
        if (piece.border) {
            Reading unexposed = row;
            unexposed.wedge_density = unexposed.carrier_density = unexposed.callier = unexposed.filter = {};
            unexposed.exposure_s = 0;
            unexposed.density = to_thousandths(*piece.border);
            rows.push_back(unexposed);
        }
    }
    return rows;
}

}  // namespace fogproof::reading
