// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The program run as a user runs it, in a folder of its own.
#pragma once

#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <map>
#include <string>

#include "support/film_scan.hpp"
#include "support/named_inputs.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

/// The one way in which tests start the program, and any other. Every file that a line names as an input is
/// the same afterwards: whatever a test asks, it asks this.
class Program {
  public:
    struct Answer {
        int code;  ///< exit code; 128 and the signal's number after a crash
        std::string out, err;
    };

    /// What a shell makes of "fogproof WORDS" in the folder, with variables of the environment set before it.
    [[nodiscard]] Answer run(const std::string& words, const std::string& variables = {}) const;
    /// The same without a superuser's rights, whoever runs the test.
    [[nodiscard]] Answer run_as_anybody(const std::string& words) const;
    /// What a shell makes of a line in the folder; "$FOGPROOF" is the program.
    [[nodiscard]] Answer shell(const std::string& line, bool as_anybody = false) const;
    /// "fogproof WORDS", killed after so long unless it has ended by then.
    [[nodiscard]] Answer run_and_kill(const std::string& words, std::chrono::microseconds after) const;
    /// The process that runs a line in the folder; to be waited for with `answer_of`. An input may be left
    /// out which the test itself is going to change meanwhile.
    [[nodiscard]] pid_t begun(const std::string& line, bool as_anybody,
                              const std::string& changed_by_test = {}) const;
    [[nodiscard]] Answer answer_of(pid_t child) const;
    Program() = default;
    Program(const Program&) = delete;
    ~Program();

    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return folder_ / name; }
    void write(const std::string& name, const std::string& text) const;
    /// Every file of the folder with its content; folders end in a slash.
    [[nodiscard]] std::map<std::string, std::string> files() const;

    /// Opens the folder to whoever runs the program.
    void let_anybody_in() const;

  private:
    struct Asked {
        std::string line;
        NamedInputs inputs;
    };
    void expect_kept(const Asked& asked) const;

    // The child's way from fork to shell; never returns. The program is held open, since its place may be
    // shut to others.
    [[noreturn]] void begin(const std::string& line, const char* out, const char* err, bool as_anybody) const;

    TestFolder folder_, said_;
    mutable std::map<pid_t, Asked> asked_;  ///< and not answered yet
};

}  // namespace fogproof::tests
