// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/version.hpp"

#include "base/version_number.hpp"

namespace fogproof::base {
std::string version() {
    return kVersionText;
}
}  // namespace fogproof::base
