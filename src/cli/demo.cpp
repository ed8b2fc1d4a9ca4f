// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/verbs.hpp"

namespace fogproof::cli {
void add_demo(CLI::App&, const Console&) {}
}  // namespace fogproof::cli
