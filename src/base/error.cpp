// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/base/error.hpp"

#include "fogproof/base/markup.hpp"

namespace fogproof {
namespace {

// One line. Only where no place is given may it be several: each names its own.
std::string message(std::string_view place, std::string_view found, std::string_view allowed) {
    if (place.empty() && allowed.empty()) return harmless(found);
    std::string text(place);
    if (!found.empty()) text.append(text.empty() ? "" : ": ").append(found);
    if (!allowed.empty()) text.append("; ").append(allowed);
    return plain_line(text);
}

}  // namespace

Error::Error(Fault fault, std::string_view place, std::string_view found, std::string_view allowed)
    : std::runtime_error(message(place, found, allowed)), fault_(fault) {}

}  // namespace fogproof
