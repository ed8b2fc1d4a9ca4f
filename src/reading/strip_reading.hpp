// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Reflection densities off a flatbed scan: where the strips lie, where their steps begin and end, what they
// read.
//
// A strip is a straight piece of paper with steps of even density across it, one way from dark to light. Not
// modelled: flare that depends on the surroundings of a step, and the scanner's own colour filters, whose
// luminance is not quite the visual weighting of ISO 5-3. A scan is therefore less certain than a
// densitometer.
#pragma once

#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/region.hpp"
#include "fogproof/base/quantity.hpp"
#include "fogproof/rooms.hpp"
#include "reading/flatbed_doubt.hpp"
#include "reading/half_side.hpp"
#include "reading/known_patch.hpp"
#include "scan/reflection_image.hpp"

namespace fogproof::reading {

/// A point of the scan, in its pixels.
using ScanPoint = std::pair<double, double>;

/// What one piece of a scan is told to be.
struct PieceRequest {
    enum class Kind { patch, strip, print, skipped };
    int number;
    Kind kind = Kind::strip;
    std::optional<int> steps{};  ///< of a strip, as told
    bool halves = false;
    std::optional<HalfSide> bleached{};  ///< of a print's halves, as told
    std::optional<Region> place{};       ///< where it lies if the number is that of this scan
    std::string from{};                  ///< where it is told, for messages
};

/// The same point of a picture on the negative's scan and on the print's, each in pixels of its scan.
struct TiedPoints {
    ScanPoint negative, print;
};

struct StripRequest {
    std::string place;                ///< what messages call the scan
    std::optional<int> steps{};       ///< as told; else they are counted
    bool halves = false;              ///< one half of the strip, along its length, is bleached
    bool leave_out = false;           ///< leave out what would be refused, and say so
    std::optional<Region> frame{};    ///< look only here
    std::vector<KnownPatch> known{};  ///< none: full scale is taken as density 0; a dark one removes flare
    /// One for each piece that is to be read; empty: all that stands out is looked at for strips.
    std::vector<PieceRequest> pieces{};
    std::optional<HalfSide> bleached{};  ///< of a print's halves, as told; else their tones tell
    std::vector<TiedPoints> ties{};      ///< of a print and its negative, as told; else it is searched for
};

struct StepReading {
    int step;                          ///< from 1, the darkest of the strip
    PrintDensity density;              ///< from the mean light of the pixels that count
    double scatter;                    ///< standard deviation of those pixels, in density
    std::size_t count;                 ///< pixels that count, of the image that was read
    std::array<ScanPoint, 4> corners;  ///< of the area that was read
};

/// What the paper itself leaves in doubt of which step is which.
struct StepDoubt {
    std::vector<std::pair<int, int>> alike{};  ///< first and last of steps without an edge between them
    bool elsewhere = false;                    ///< they may have merged at the other end instead
    bool exact = false;                        ///< in a row as regular as a printed wedge's
    int like_lid = 0;                          ///< steps at one end that look like the background
    bool dark_like_lid = false;                ///< that end is the dark one
    double left_dark = 0, left_light = 0;      ///< paper past the darkest and the lightest, in steps
};

/// One strip, or one half of it.
struct StripReading {
    std::array<ScanPoint, 4> corners;
    std::vector<StepReading> steps;     ///< from dark to light
    std::vector<StepReading> bleached;  ///< of the bleached half, with StripRequest::halves
    int step_count;                     ///< steps that the strip has, those left out included
    int piece = 0;                      ///< its number on the scan
    StepDoubt doubt{};
};

/// What became of one piece of the scan.
struct SeenPiece {
    enum class Kind { known, strip, patch, print, aside };
    int number;
    Kind kind;
    std::array<ScanPoint, 4> corners;
    std::string words{};              ///< "fixed 0.09" of a known patch
    std::optional<double> density{};  ///< of an even one
};

struct ScanReading {
    std::vector<StripReading> strips{};  ///< as one reads a page
    std::vector<std::string> notes{};    ///< guesses taken and things left aside
    std::vector<SeenPiece> pieces{};     ///< all that lies on the lid, known regions included (number 0)
    FlatbedDoubt doubt{};
    std::vector<std::string> warnings{};  ///< of the scan as a whole
};

/// Throws Error(Fault::data) for a scan without a strip, with another number of steps than told, or with
/// steps that are clipped or too uneven to be steps.
[[nodiscard]] ScanReading strips_read(const ReflectionImage&, const StripRequest&);

}  // namespace fogproof::reading
