// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One function a verb: it adds its subcommand to the program and says what the subcommand does.
#pragma once

#include <CLI/CLI.hpp>

#include "cli/console.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::cli {

void add_grid(CLI::App& program, const Console&);
void add_print(CLI::App& program, const Console&);
void add_plan(CLI::App& program, const Console&);
void add_start(CLI::App& program, const Console&);
void add_pack(CLI::App& program, const Console&);
void add_read(CLI::App& program, const Console&);
void add_darkroom(CLI::App& program, const Console&);
void add_completion(CLI::App& program, const Console&);
void add_manual(CLI::App& program, const Console&);
void add_demo(CLI::App& program, const Console&);

}  // namespace fogproof::cli
