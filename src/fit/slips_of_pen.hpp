// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What else could have been meant by the labels of a strip.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "fit/predictor.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::fit {

/// Other labels for one strip, or for two that change places.
struct Relabelling {
    std::vector<std::size_t> rows;  ///< of the readings that it changes, rising
    std::vector<Reading> readings;  ///< these, relabelled
    std::string words;              ///< "filter 4 instead of 2"
    bool is_swap = false;
    std::string with;  ///< the other strip of an exchange
};

/// Strips in the order of their first reading.
[[nodiscard]] std::vector<std::string> strips_in(std::span<const Reading>);

/// Sheets of which two halves were read.
[[nodiscard]] std::vector<std::string> sheets_in_halves(std::span<const Reading>);

/// All readings, those of a relabelling relabelled.
[[nodiscard]] std::vector<Reading> with_labels_of(const Relabelling&, std::span<const Reading>);

/// Of a strip, or of a sheet with both its halves: filters of the pack; bleach times, doses, developments and
/// exposures of other strips; factors that a pen slips by, of a strip of bands on all its seconds; one label,
/// or all of them, exchanged with one of the partners.
[[nodiscard]] std::vector<Relabelling> slips_of_pen(std::span<const Reading>, const Pack& nominal,
                                                    const std::string& strip,
                                                    std::span<const std::string> partners);

}  // namespace fogproof::fit
