// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/base/error.hpp"

#include "fogproof/base/markup.hpp"

namespace fogproof {
namespace {

std::string message(std::string_view place, std::string_view found, std::string_view allowed) {
    std::string text(place);
    if (!found.empty()) text.append(text.empty() ? "" : ": ").append(found);
    if (!allowed.empty()) text.append("; ").append(allowed);
    return harmless(text);
}

}  // namespace

Error::Error(Fault fault, std::string_view place, std::string_view found, std::string_view allowed)
    : std::runtime_error(message(place, found, allowed)), fault_(fault) {}

}  // namespace fogproof
