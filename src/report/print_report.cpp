// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/print_report.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/stop.hpp"
#include "base/version.hpp"
#include "base/words.hpp"
#include "reading/handwork_map.hpp"
#include "report/json_text.hpp"
#include "report/reading_json.hpp"
#include "report/turned_words.hpp"

namespace fogproof::report {
namespace {

using PrintJson = nlohmann::ordered_json;

std::string padded(const std::string& text, std::size_t width) {
    return std::string(width > text.size() ? width - text.size() : 0, ' ') + text;
}

std::string half_name(const NamedPrint& print, std::size_t piece) {
    if (print.read.pieces.size() < 2) return {};
    return piece == 0 ? ", unbleached half" : ", bleached half";
}

PrintJson corners_json(const PrintPiece& piece, double scan_pixels) {
    PrintJson corners = PrintJson::array();
    for (const auto& [x, y] : piece.frame.corners()) corners.push_back({x * scan_pixels, y * scan_pixels});
    return corners;
}

PrintJson piece_json(const PrintPiece& piece, double scan_pixels) {
    PrintJson tones = PrintJson::array();
    for (const PrintTone& tone : piece.curve.tones)
        tones.push_back({{"wedge_density", tone.over_paper},
                         {"density", tone.density},
                         {"density_error", tone.error},
                         {"area", tone.area}});
    return {{"corners", corners_json(piece, scan_pixels)},
            {"corner_doubt", piece.frame.corner_doubt * scan_pixels},
            {"mirrored", piece.frame.is_mirrored},
            {"falloff_stops", piece.curve.falloff / kLogPerStop},
            {"border_density", piece.border ? PrintJson(*piece.border) : PrintJson()},
            {"tones", tones}};
}

PrintJson handwork_json(const PrintReading& read) {
    PrintJson places = PrintJson::array();
    for (const WorkedPlace& place : handwork_map(read).places)
        places.push_back({{"work", place.stops > 0 ? "burn" : "dodge"},
                          {"stops", std::abs(place.stops)},
                          {"share", place.share},
                          {"box", {place.left, place.top, place.right, place.bottom}}});
    return places;
}

}  // namespace

std::string prints_text(std::span<const NamedPrint> prints) {
    std::string text;
    for (const NamedPrint& print : prints)
        for (std::size_t i = 0; i < print.read.pieces.size(); ++i) {
            const PrintPiece& piece = print.read.pieces[i];
            text += print.source + ": " + print.name + half_name(print, i) + "\n";
            text += "  negative's density  density  doubt  area\n";
            for (const PrintTone& tone : piece.curve.tones)
                text += padded(fixed(tone.over_paper, 2), 20) + padded(fixed(tone.density, 2), 9) +
                        padded(fixed(tone.error, 3), 7) + padded(fixed(100 * tone.area, 1) + " %", 7) + "\n";
            if (piece.border) text += "  unexposed border" + padded(fixed(*piece.border, 2), 8) + "\n";
        }
    return text + "A flatbed is less certain than a densitometer; its doubt is written into the rows.\n";
}

nlohmann::ordered_json as_json(std::span<const NamedPrint> prints) {
    PrintJson read = PrintJson::array();
    for (const NamedPrint& print : prints) {
        PrintJson pieces = PrintJson::array();
        for (const PrintPiece& piece : print.read.pieces)
            pieces.push_back(piece_json(piece, print.scan_pixels));
        read.push_back({{"source", print.source},
                        {"strip", print.name},
                        {"pieces", pieces},
                        {"handwork", handwork_json(print.read)}});
    }
    return read;
}

std::string prints_json(std::span<const NamedPrint> prints, std::span<const Reading> rows,
                        const Remarks& remarks) {
    PrintJson written = PrintJson::array(), corners = PrintJson::array();
    if (!prints.empty()) corners = corners_json(prints[0].read.pieces[0], prints[0].scan_pixels);
    for (const Reading& row : rows) written.push_back(reading_json(row));
    PrintJson all{{"fogproof", version()}, {"corners", corners},     {"prints", as_json(prints)},
                  {"rows", written},       {"notes", remarks.notes}, {"warnings", remarks.warnings}};
    tell_turned(all, remarks.degrees_turned);
    return json_text(all);
}

}  // namespace fogproof::report
