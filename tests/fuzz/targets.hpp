// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What is asked of every reader for any bytes whatever: a result that holds together, or one Error.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include "support/rooms.hpp"

namespace fogproof::fuzz {

struct Target {
    std::string_view name;  ///< of its folder of inputs in tests/fuzz/inputs
    /// Returns when all is well, also when the bytes were refused with an Error. Any other exception, and
    /// whatever a sanitizer sees, is a finding.
    void (*tried)(std::string_view bytes);
};

[[nodiscard]] std::span<const Target> targets();

}  // namespace fogproof::fuzz
