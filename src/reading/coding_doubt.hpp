// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Whether a scan of paper that is taken as linear has codes made for the eye.
#pragma once

#include <optional>
#include <string>

#include "fogproof/rooms.hpp"
#include "scan/reflection_image.hpp"

namespace fogproof::reading {

struct LinearDoubt {
    std::string words;
    bool is_likely;  ///< the darkest places are a black's by the other coding alone; else nothing tells
};
/// Where nobody told the coding, and blacks on the scan do not show that it is linear.
[[nodiscard]] std::optional<LinearDoubt> doubt_of_linear(const ReflectionImage&);

}  // namespace fogproof::reading
