// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The program: wires the verbs together and turns faults into exit codes.
#include <CLI/CLI.hpp>

#include "cli/console.hpp"
#include "cli/ending.hpp"
#include "cli/usage_fault.hpp"
#include "cli/verbs.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/base/interruption.hpp"
#include "fogproof/base/version.hpp"

int main(int count, char** words) {
    using namespace fogproof;
    cli::Console console;
    CLI::App program("Print previews and recipes for old, fogged darkroom paper.", "fogproof");
    program.set_version_flag("--version", "fogproof " + version());
    program.require_subcommand(1);
    program.fallthrough();
    program.add_flag("--quiet", console.quiet, "no notes");
    program.add_flag("--verbose", console.verbose, "more about what is done");
    cli::add_demo(program, console);
    cli::add_grid(program, console);
    cli::add_print(program, console);
    cli::add_start(program, console);
    cli::add_plan(program, console);
    cli::add_pack(program, console);
    cli::add_read(program, console);

    leave_nothing_when_interrupted();
    return cli::ending_of([&] {
        try {
            program.parse(count, words);
            return 0;
        } catch (const CLI::Success& answered) {  // --help and --version
            return program.exit(answered);
        } catch (const CLI::ParseError& fault) {
            cli::Console::fault(cli::usage_fault(program, fault));
            return int(Fault::usage);
        }
    });
}
