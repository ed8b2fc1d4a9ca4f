// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The program: wires the verbs together and turns faults into exit codes.
#include <CLI/CLI.hpp>
#include <exception>
#include <iostream>
#include <new>

#include "cli/console.hpp"
#include "cli/standard_streams.hpp"
#include "cli/usage_fault.hpp"
#include "cli/verbs.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/base/version.hpp"

int main(int count, char** words) {
    using namespace fogproof;
    cli::make_standard_streams_safe();
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

    try {
        try {
            program.parse(count, words);
        } catch (const CLI::Success& answered) {  // --help and --version
            program.exit(answered);
        }
        cli::require_answer_delivered();
        return 0;
    } catch (const CLI::ParseError& fault) {
        cli::Console::fault(cli::usage_fault(program, fault));
        return int(Fault::usage);
    } catch (const Error& error) {
        cli::Console::fault(error.what());
        return int(error.fault());
    } catch (const std::bad_alloc&) {
        cli::Console::fault("out of memory");
        return int(Fault::unavailable);
    } catch (const std::exception& defect) {
        cli::Console::fault(std::string("internal defect: ") + defect.what());
        return int(Fault::internal);
    }
}
