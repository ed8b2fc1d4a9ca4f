// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/print_picture.hpp"

#include <algorithm>

#include "base/words.hpp"
#include "picture/scan_drawing.hpp"

namespace fogproof::picture {
namespace {

using Quadrangle = std::array<ScanPoint, 4>;

// A rectangle of the frame's grid, as the scan shows it.
Quadrangle on_scan(const PlacedFrame& frame, const FramePart& part, double scan_pixels) {
    const auto at = [&](int x, int y) -> ScanPoint {
        const ScanPlace place = frame.warp.at(frame.grid.place_of(x, y));
        return {place.x * scan_pixels, place.y * scan_pixels};
    };
    return {at(part.left, part.top), at(part.right, part.top), at(part.right, part.bottom),
            at(part.left, part.bottom)};
}

std::string words_for(const PrintPiece& piece, std::size_t number, std::size_t of) {
    const auto& tones = piece.curve.tones;
    std::string line = of == 1 ? "" : number == 1 ? "Unbleached half: " : "Bleached half: ";
    line += std::to_string(tones.size()) + " tones, density " + fixed(tones.back().density, 2) + " to " +
            fixed(tones.front().density, 2);
    if (piece.border) line += "; unexposed border " + fixed(*piece.border, 2);
    return line;
}

}  // namespace

void save_print_picture(const ReflectionImage& image, const PrintReading& read, const std::string& title,
                        WholeFile& file) {
    std::vector<std::string> lines{title};
    for (std::size_t i = 0; i < read.pieces.size(); ++i)
        lines.push_back(words_for(read.pieces[i], i + 1, read.pieces.size()));
    const bool is_cut = read.pieces.size() > 1;
    lines.emplace_back(
        std::string("Blue: ") +
        (is_cut ? "the part of the frame that was read on each half" : "the negative's frame") +
        ". Orange: even places that were read. Green: known densities. Numbers: pieces, for --known.");
    const OutputProfile profile = OutputProfile::named("srgb");
    ScanDrawing drawing(image, lines, profile);
    for (const PrintPiece& piece : read.pieces) {
        const FrameGrid& grid = piece.frame.grid;
        for (std::size_t i = 0; i < piece.ground.squares.size(); ++i) {
            if (!piece.curve.counted[i]) continue;
            const EvenSquare& square = piece.ground.squares[i];
            // A dot in the middle of each square: whole outlines would hide the picture.
            const int x = square.column * piece.ground.side + piece.ground.side / 2,
                      y = square.row * piece.ground.side + piece.ground.side / 2;
            drawing.outline(on_scan(piece.frame, {x, y, x + 1, y + 1}, image.scan_pixels),
                            ScanDrawing::kPlace, 1);
        }
        // The frames of two halves would lie across each other.
        const FramePart outlined = is_cut ? piece.frame.shown : FramePart{0, 0, grid.width, grid.height};
        drawing.outline(on_scan(piece.frame, outlined, image.scan_pixels), ScanDrawing::kPiece, 3);
    }
    for (const auto& known : read.known) {
        drawing.outline(known.corners, ScanDrawing::kKnown, 3);
        drawing.label(
            known.corners, words_of(known.patch),
            known.patch.density > ScanDrawing::kDarkPlace ? ScanDrawing::kOnDark : ScanDrawing::kOnLight);
    }
    for (const auto& piece : read.on_lid) {
        const bool is_known = std::ranges::find(read.known, piece.number, [](const auto& known) {
                                  return known.patch.piece;
                              }) != read.known.end();
        drawing.tag(piece.corners, std::to_string(piece.number),
                    is_known ? ScanDrawing::kKnown : ScanDrawing::kPiece);
    }
    PictureOptions options;
    options.bits = 8;
    const vips::VImage picture = drawing.picture();
    save_picture([&picture] { return picture; }, file, profile, options);
}

}  // namespace fogproof::picture
