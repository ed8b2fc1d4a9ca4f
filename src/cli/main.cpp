// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The program: wires the verbs together and turns faults into exit codes.
#include <malloc.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <iterator>
#include <span>

#include "base/version.hpp"
#include "base/words.hpp"
#include "cli/amount_words.hpp"
#include "cli/command_line.hpp"
#include "cli/console.hpp"
#include "cli/darkroom_file.hpp"
#include "cli/ending.hpp"
#include "cli/progress_line.hpp"
#include "cli/standard_streams.hpp"
#include "cli/typed_values.hpp"
#include "cli/usage_fault.hpp"
#include "cli/verb_words.hpp"
#include "cli/verbs.hpp"
#include "fit/least_squares.hpp"
#include "fogproof/base/error.hpp"
#include "picture/picture_libraries.hpp"
#include "pixels/tiff_libraries.hpp"
#include "system/interruption.hpp"

namespace {

using namespace fogproof::cli;

// A complaint about an option that the settings file gave names the line there.
std::string told_with_place(const Error& error, const DarkroomFile& darkroom, const CLI::App& program) {
    const CLI::App* verb = &program;
    while (!verb->get_subcommands().empty()) verb = verb->get_subcommands().front();
    const std::string told = error.what(), option = told.substr(0, told.find(':'));
    const auto place = darkroom.place_of(option, verb->get_name());
    return place && !CommandLine(*verb).gives(option.c_str()) ? *place + ": " + told : told;
}

int run(CLI::App& program, const Console& console, int count, char** words) {
    DarkroomFile darkroom{std::filesystem::path()};
    // What is wrong with the settings. It stops every command, but never --version and --help.
    std::optional<Error> misset;
    hold_values(program);
    try {
        darkroom = DarkroomFile(DarkroomFile::usual_path());
        darkroom.serve(program);
    } catch (const Error& error) {
        misset = error;
    }
    try {
        // After the words are read and before what they ask for is done.
        program.parse_complete_callback([&] {
            if (misset) throw Error(*misset);
            if (!console.quiet) show_progress();
        });
        refuse_empty_values({words, std::size_t(count)});
        try {
            auto joined = with_amounts_joined({words + 1, std::size_t(std::max(count, 1) - 1)});
            std::ranges::reverse(joined);  // as CLI11 wants them
            program.parse(std::move(joined));
        } catch (const CLI::Success& answered) {  // --help and --version
            program.exit(answered);
        }
        require_answer_delivered();
        return 0;
    } catch (const CLI::ParseError& fault) {
        if (misset) throw Error(*misset);
        Console::fault(usage_fault(program, fault));
        return int(Fault::usage);
    } catch (const Error& error) {
        Console::fault(told_with_place(error, darkroom, program));
        return int(error.fault());
    }
}

}  // namespace

int main(int count, char** words) {
    make_standard_streams_safe();
    // Arenas of their own for threads reserve address space by the 64 MB, and limits on memory count that.
    ::mallopt(M_ARENA_MAX, 1);
    // Tables of a megabyte come and go with every step of a print. Memory that is given back in between has
    // to be cleared and mapped again for the next one, which took a small print a fifth of its time.
    ::mallopt(M_MMAP_THRESHOLD, 32 << 20);
    ::mallopt(M_TRIM_THRESHOLD, 256 << 20);
    Console console;
    CLI::App program("Print previews and recipes for old, fogged darkroom paper.", "fogproof");
    program.set_version_flag("--version", [] {
        auto libraries = imaging_libraries();
        std::ranges::copy(strip_libraries(), std::back_inserter(libraries));
        libraries.insert(libraries.end(), {solver_library(), "CLI11 " CLI11_VERSION});
        return "fogproof " + version() + "\nwith " + listed(libraries);
    });
    program.require_subcommand(1);
    program.fallthrough();
    program.add_flag("--quiet", console.quiet, "no notes; warnings and cautions are still shown");
    program.add_flag("--verbose", console.verbose, "more about what is done");
    add_demo(program, console);
    add_grid(program, console);
    add_print(program, console);
    add_start(program, console);
    add_plan(program, console);
    add_pack(program, console);
    add_read(program, console);
    add_darkroom(program, console);
    add_completion(program, console);
    add_manual(program, console);
    show_words(program);
    leave_nothing_when_interrupted();
    return ending_of([&] { return run(program, console, count, words); });
}
