// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One error type for everything a user can get wrong or a machine can refuse: place, what was found, what is
// allowed. Libraries throw it and never exit; the program maps its fault to the exit code.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::base {

/// What kind of thing went wrong. The numbers are the exit codes of sysexits.h (4.3BSD).
enum class Fault : int {
    usage = 64,          ///< the command line
    data = 65,           ///< the content of an input
    no_input = 66,       ///< an input that is missing or cannot be read
    unavailable = 69,    ///< something the machine lacks (a font, a library)
    internal = 70,       ///< a defect of this program
    cannot_create = 73,  ///< an output that cannot be made or must not be replaced
    io = 74,             ///< reading or writing failed half-way
    config = 78,         ///< a pack or recipe that contradicts itself
};

/// What to do about it, or why it is so, where no value would be right.
struct Advice {
    std::string words;
};

class Error : public std::runtime_error {
  public:
    /// The message reads "place: found; expected: allowed"; an empty part is left out with its separator.
    /// Control characters in it, as file names may have, are replaced.
    Error(Fault fault, std::string_view place, std::string_view found, std::string_view allowed = {});
    /// "place: found; advice".
    Error(Fault fault, std::string_view place, std::string_view found, const Advice& advice);
    [[nodiscard]] Fault fault() const { return fault_; }

  private:
    Fault fault_;
};

}  // namespace fogproof::base
