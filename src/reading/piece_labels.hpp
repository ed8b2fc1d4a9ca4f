// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The labels file beside a scan: one line for each piece on it, so that slips, strips and prints of different
// kinds can lie side by side. CSV (RFC 4180), lines from '#' on are comments, columns by name in any order.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/region.hpp"
#include "fogproof/rooms.hpp"
#include "reading/strip_labels.hpp"
#include "reading/strip_reading.hpp"

namespace fogproof::reading {

inline constexpr std::size_t kLargestLabelsFile = 1u << 20;
inline constexpr char kLabelsWanted[] = "labels as fogproof read --labels-out or fogproof plan writes them";

struct PieceLabels {
    int line = 0;                ///< of the text it came from
    std::optional<int> piece{};  ///< its number; nothing: the print that the scan is of
    PieceRequest::Kind kind = PieceRequest::Kind::strip;
    std::optional<Region> place{};  ///< where it was when the file was written, in pixels of the scan
    std::optional<KnownPatch> known{};
    std::optional<int> steps{};
    bool halves = false;
    std::optional<HalfSide> bleached{};        ///< the bleached one of a print's halves
    std::string negative{};                    ///< of a print, as a path from the file's folder
    std::optional<double> callier{}, flare{};  ///< of the enlarger, for a print
    StripLabels strip{};
};

/// Throws Error(Fault::data): one line "PLACE:LINE: found; expected: allowed" for every bad line.
[[nodiscard]] std::vector<PieceLabels> parse_labels(std::string_view text, const std::string& place);
/// The text of a labels file: comment lines, the columns, the lines. parse_labels gives them back.
[[nodiscard]] std::string labels_text(std::span<const PieceLabels>, std::span<const std::string> comments);

/// What a scan with these pieces is asked; `place` names the file in messages.
void ask_for_pieces(StripRequest&, std::span<const PieceLabels>, const std::string& place);

/// The line of the print that the whole scan is of, if the file is of one.
[[nodiscard]] const PieceLabels* only_print(std::span<const PieceLabels>);

}  // namespace fogproof::reading
