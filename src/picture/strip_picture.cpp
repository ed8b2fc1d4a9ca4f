// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/strip_picture.hpp"

#include "base/words.hpp"
#include "picture/scan_drawing.hpp"

namespace fogproof::picture {
namespace {

std::string range(const std::vector<StepReading>& steps) {
    const std::string first = fixed(steps.front().density.value, 2),
                      last = fixed(steps.back().density.value, 2);
    return steps.size() == 1 ? first : first + " to " + last;
}

std::string words_for(const StripReading& strip) {
    std::string line =
        strip.step_count == 1 ? "patch" : "strip of " + std::to_string(strip.step_count) + " steps";
    if (const auto out = std::size_t(strip.step_count) - strip.steps.size(); out > 0)
        line += " (" + std::to_string(out) + " left out)";
    line += ", density " + range(strip.steps);
    if (!strip.bleached.empty()) line += "; bleached half " + range(strip.bleached);
    return line;
}

std::string words_for(const SeenPiece& piece, const ScanReading& read) {
    const std::string number = piece.number > 0 ? std::to_string(piece.number) + ": " : "";
    switch (piece.kind) {
        case SeenPiece::Kind::known:
            return number + "known, " + piece.words;
        case SeenPiece::Kind::print:
            return number + "print";
        case SeenPiece::Kind::aside:
            return number + "left aside";
        case SeenPiece::Kind::patch:
        case SeenPiece::Kind::strip:
            break;
    }
    for (const auto& strip : read.strips)
        if (strip.piece == piece.number) return number + words_for(strip);
    return number + piece.words;
}

const Lab& colour_of(SeenPiece::Kind kind) {
    return kind == SeenPiece::Kind::known   ? ScanDrawing::kKnown
           : kind == SeenPiece::Kind::aside ? ScanDrawing::kAside
                                            : ScanDrawing::kPiece;
}

const Lab& ink_on(double density) {
    return density > ScanDrawing::kDarkPlace ? ScanDrawing::kOnDark : ScanDrawing::kOnLight;
}

}  // namespace

void save_strip_picture(const ReflectionImage& image, const ScanReading& read, const std::string& title,
                        WholeFile& file) {
    std::vector<std::string> lines{title};
    for (const auto& piece : read.pieces) lines.push_back(words_for(piece, read));
    lines.emplace_back(
        "Blue: pieces by their numbers. Orange: areas read, with visual reflection density. Green: known "
        "densities. Grey: left aside.");
    const OutputProfile profile = OutputProfile::named("srgb");
    ScanDrawing drawing(image, lines, profile);
    for (const auto& piece : read.pieces) drawing.outline(piece.corners, colour_of(piece.kind), 3);
    for (const auto& strip : read.strips)
        for (const auto* steps : {&strip.steps, &strip.bleached})
            for (const auto& step : *steps) {
                drawing.outline(step.corners, ScanDrawing::kPlace, 1);
                drawing.label(step.corners, fixed(step.density.value, 2), ink_on(step.density.value));
            }
    for (const auto& piece : read.pieces) {
        if (piece.kind == SeenPiece::Kind::known)
            drawing.label(piece.corners, piece.words, ink_on(piece.density.value_or(0)));
        if (piece.number > 0) drawing.tag(piece.corners, std::to_string(piece.number), colour_of(piece.kind));
    }
    PictureOptions options;
    options.bits = 8;
    const vips::VImage picture = drawing.picture();
    save_picture([&picture] { return picture; }, file, profile, options);
}

}  // namespace fogproof::picture
