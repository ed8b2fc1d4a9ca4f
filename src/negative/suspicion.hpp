// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What looks wrong with a scan, judged by the tones of its frame and by what lies around it.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "fogproof/base/quantity.hpp"
#include "fogproof/rooms.hpp"
#include "negative/scan_colour.hpp"
#include "negative/tones.hpp"

namespace fogproof::negative {

/// What surrounds the picture.
struct FilmAround {
    std::optional<NegativeDensity> rim{};  ///< an even dark rim of the scan, above its thinnest tone
    bool is_negative = false;              ///< film is seen, thinner than the picture
    bool is_inverted = false;              ///< film is seen, denser than the picture
};

/// What is known of a scan beside the tones of its frame. Densities are as scanned, full scale being 0.
struct ScanEvidence {
    bool as_positive = false;
    bool kind_is_told = false;      ///< the user says that it is a negative
    bool encoding_is_told = false;  ///< by the user
    bool linear_is_guess = false;   ///< taken as linear because nobody says anything else
    bool may_hold_rim = false;      ///< no frame was given or found, so that a holder may be counted
    std::string on_holder{};        ///< sides on which the frame found seems to run into the holder
    int pictures = 1;               ///< of one size in a row in the frame, film between them
    std::string first_picture{};    ///< where the first of several lies, as --frame takes it
    bool clear_is_given = false;    ///< by the user
    /// Light of clear film and of the scanner's black as given by the user.
    std::optional<double> clear_given{}, black_given{};
    bool clear_is_typed = false;     ///< as a number, not as a region
    bool has_own_codes = false;      ///< the histogram counts the codes of the file
    bool channels_are_told = false;  ///< by the user
    bool by_blue_and_green = false;  ///< densities are those of these two channels
    FilmAround around{};
    std::optional<NegativeDensity> found_clear{};  ///< film around the frame
    std::optional<ScanColour> colour{};            ///< of a scan in colour
};

/// One sentence for each suspicion: what was seen, what it would do to the print, the option that settles it.
/// `light` is the linear light of every code; the histogram counts the frame.
[[nodiscard]] std::vector<std::string> suspicions(const ScanEvidence&, const Histogram&,
                                                  std::span<const double> light);

}  // namespace fogproof::negative
