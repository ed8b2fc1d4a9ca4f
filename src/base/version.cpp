// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/base/version.hpp"

#include "base/version.hpp"

namespace fogproof {
std::string version() {
    return kVersionText;
}
}  // namespace fogproof
