// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the columns of a readings file mean, for whoever fills one in by hand.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::report {

struct ColumnWords {
    std::string name, meaning;  ///< the meaning with unit and range
};

/// Every column, in the order in which files are written.
[[nodiscard]] std::vector<ColumnWords> reading_columns_words();
/// What is true of all of them.
inline constexpr const char* kReadingColumnsHead =
    "Columns of a readings file, in any order. Only density is required. An empty cell means what is usual "
    "for the pack. Numbers stand alone, without their unit. Lines that begin with # are comments.";

/// A note of lines that are comments by their first character, but look like readings.
[[nodiscard]] std::string commented_rows_words(std::size_t count);

}  // namespace fogproof::report
