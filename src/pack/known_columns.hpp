// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// An instrument's table with those columns that readings have, whatever the case of their names. Columns of
/// other names are left out and named; one that is nearly ours stays and is refused where it is read. Lines
/// keep their numbers.
struct KnownColumns {
    std::string text;
    std::vector<std::string> left_out;
};
[[nodiscard]] KnownColumns known_columns(std::string_view csv);

}  // namespace fogproof::pack
