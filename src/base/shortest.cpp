// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/shortest.hpp"

#include <charconv>

namespace fogproof::base {

std::string shortest(double value) {
    char buffer[32];
    return {buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr};
}

}  // namespace fogproof::base
