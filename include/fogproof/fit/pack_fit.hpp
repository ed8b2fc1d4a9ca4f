// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From readings to a pack: every number that the readings speak about, held by what was known before, with
// how roughly it is known after.
// Readings of one sheet err together by a shift of that sheet. Not modelled: sheets that differ in speed or
// contrast rather than by one density throughout.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "fogproof/fit/ending.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

struct FittedNumber {
    std::string name;
    double before, doubt_before;  ///< what the fit started from, one standard deviation
    double value, deviation;
    Origin state;  ///< measured, partly measured, or as it was
};

/// One strip, and how far the fitted pack misses it.
struct StripFit {
    std::string label;
    std::size_t readings;
    double rms;         ///< D
    double mean;        ///< D, fitted minus read
    double mean_error;  ///< D, by which its readings and their instrument may put that off; one deviation

    /// It came out darker or lighter as a whole than its readings' errors explain. That sheets differ may,
    /// and so may a paper that departs from the laws here: one sheet alone does not tell which.
    [[nodiscard]] bool stands_off() const;
};

/// A strip that the others do not believe.
struct Contradiction {
    std::string strip;
    double rms;                         ///< of the strip, when the other strips alone are fitted
    std::optional<std::string> better;  ///< "filter 4 instead of 2"; nothing if no label tried fits
    std::optional<double> rms_better;
};

struct PackFit {
    Pack pack;  ///< with readings and fit record
    Ending ending = Ending::failed;
    int steps = 0;
    std::vector<Reading> readings;  ///< all, those kept from before first
    std::vector<double> fitted;     ///< density of each on the fitted pack
    std::vector<FittedNumber> numbers;
    std::vector<StripFit> strips;
    std::vector<Contradiction> contradictions;
    std::vector<std::string> warnings;  ///< labels that are hardly meant, strips out of line
    double reading_error = 0, rms = 0;  ///< D

    /// "converged", "out of steps", "readings contradict each other: ..."
    [[nodiscard]] std::string in_words() const;
};

/// The pack as it was before its last fit.
[[nodiscard]] Pack unfitted(const Pack&);

/// Fits the readings that the prior keeps and the further ones, starting from what was known before any of
/// them. `origin` says where the further ones come from. Throws Error(Fault::data) where no pack can show
/// such readings, and what paper_model() throws.
[[nodiscard]] PackFit fitted_pack(const Pack& prior, std::span<const Reading> further,
                                  const std::string& origin);

}  // namespace fogproof::fit
