// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What is said beside an answer: on stderr, in JSON, on sheets and pages.
#pragma once

#include <string>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

struct Remarks {
    std::vector<std::string> notes;  ///< guesses taken and other things worth knowing
    /// What may make the answer wrong. Each says what was seen, what it would do to the print, and what
    /// settles it.
    std::vector<std::string> warnings;
    double degrees_turned = 0;  ///< clockwise, of the scan to set its frame upright
};

}  // namespace fogproof::base
