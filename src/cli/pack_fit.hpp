// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// pack fit: readings in, a described pack out.
#pragma once

#include <CLI/CLI.hpp>

#include "cli/console.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::cli {

void add_fit(CLI::App& pack, const Console&);

}  // namespace fogproof::cli
