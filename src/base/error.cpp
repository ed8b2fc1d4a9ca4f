// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/base/error.hpp"

#include "base/markup.hpp"

namespace fogproof::base {
namespace {

constexpr std::size_t kLongestPlace = 500;  // bytes; as a rule a path
constexpr std::size_t kLongestFound = 400;  // bytes; what is found may be what somebody typed

// One line. Only where no place is given may it be several: each names its own.
std::string message(std::string_view place, std::string_view found, std::string_view allowed) {
    if (place.empty() && allowed.empty()) return harmless(found);
    std::string text = shortened(place, kLongestPlace);
    if (!found.empty()) text.append(text.empty() ? "" : ": ").append(shortened(found, kLongestFound));
    if (!allowed.empty()) text.append("; expected: ").append(allowed);
    return plain_line(text);
}

}  // namespace

Error::Error(Fault fault, std::string_view place, std::string_view found, std::string_view allowed)
    : std::runtime_error(message(place, found, allowed)), fault_(fault) {}

Error::Error(Fault fault, std::string_view place, std::string_view found, const Advice& advice)
    : std::runtime_error(plain_line(message(place, found, {}) + "; " + advice.words)), fault_(fault) {}

}  // namespace fogproof::base
