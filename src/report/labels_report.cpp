// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/labels_report.hpp"

#include <array>
#include <nlohmann/json.hpp>

#include "base/version.hpp"
#include "base/words.hpp"
#include "report/columns.hpp"
#include "report/json_text.hpp"

namespace fogproof::report {
namespace {

std::string kind_of(const PieceLabels& piece) {
    switch (piece.kind) {
        case PieceRequest::Kind::patch:
            return "patch";
        case PieceRequest::Kind::strip:
            break;
        case PieceRequest::Kind::print:
            return "print or picture";
        case PieceRequest::Kind::skipped:
            return "skipped";
    }
    return "strip, " + std::to_string(piece.steps.value_or(0)) + " steps" +
           (piece.halves ? ", half of it bleached" : "");
}

}  // namespace

std::vector<std::string> comments_on_pieces(const std::string& scan) {
    std::vector<std::string> lines{
        "The pieces on " + scan + ", one a line, numbered as --picture shows them.",
        "Fill in what was done to each. An empty cell means the usual value of the pack.",
        "kind      patch, strip, print, or skip for what is not to be read",
        "left...   where the piece lies, in pixels of the scan: leave it as it is",
        "strip     your name for the piece; halves of one sheet: NAME-before and NAME-bleached",
        "known     a known density: a number, or one of these words:"};
    for (const UsualPatch& usual : usual_patches())
        lines.push_back("          " + std::string(usual.word) + ", " + usual.meaning);
    for (const char* line :
         {"wedge     printed through a step wedge: START INCREMENT STEPS, such as 0.05 0.15 21",
          "exposures seconds of the bands of a test strip, such as 2 4 8 16",
          "halves    yes, where one half of this piece was bleached; of a print also left, right, upper or "
          "lower: the bleached one",
          "          a print cut in two has two lines: NAME-before with bleach_s 0, NAME-bleached with its "
          "bleach_s",
          "negative  of a print: the scan of its negative, as a path from the folder of this file",
          "callier, flare  of the enlarger, for a print; empty for the usual ones",
          "exposure_s 0 is unexposed, develop_s 0 is only fixed, bleach_parts is the N of 1+N."})
        lines.emplace_back(line);
    return lines;
}

std::string pieces_text(const PiecesSeen& seen, const std::string& scan) {
    std::string text = scan + ": " + std::to_string(seen.labels.size()) +
                       (seen.labels.size() == 1 ? " piece\n" : " pieces\n");
    for (const PieceLabels& piece : seen.labels) {
        const std::string number = std::to_string(*piece.piece);
        const Region& at = *piece.place;
        text += std::string(number.size() < 4 ? 4 - number.size() : 0, ' ') + number + "  " + kind_of(piece) +
                ", " + std::to_string(at.width) + " x " + std::to_string(at.height) + " at " +
                std::to_string(at.left) + ", " + std::to_string(at.top) + "\n";
    }
    return text;
}

std::string pieces_json(const PiecesSeen& seen) {
    constexpr std::array kKinds{"patch", "strip", "print", "skip"};
    nlohmann::ordered_json pieces = nlohmann::ordered_json::array();
    for (const PieceLabels& piece : seen.labels) {
        const Region& at = *piece.place;
        nlohmann::ordered_json each{{"piece", *piece.piece},
                                    {"kind", kKinds.at(std::size_t(piece.kind))},
                                    {"place", {at.left, at.top, at.width, at.height}},
                                    {"halves", piece.halves}};
        if (piece.steps) each["steps"] = *piece.steps;
        pieces.push_back(std::move(each));
    }
    return json_text({{"fogproof", version()},
                      {"pieces", pieces},
                      {"notes", seen.scan.notes},
                      {"warnings", seen.scan.warnings}});
}

}  // namespace fogproof::report
