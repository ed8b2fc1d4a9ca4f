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

/// What a warning says where nobody told the coding and the darkest places on the scan are a black's by the
/// other one alone.
[[nodiscard]] std::optional<std::string> doubt_of_linear(const ReflectionImage&);

}  // namespace fogproof::reading
