// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a command says beside its output: notes on stderr, one line each.
#pragma once

#include <string>
#include <vector>

namespace fogproof::cli {

struct Console {
    bool quiet = false, verbose = false;

    /// Guesses taken and other things worth knowing; silent with --quiet.
    void notes(const std::vector<std::string>& lines, const std::string& place = {}) const;
    /// Only with --verbose.
    void detail(const std::string& line) const;
    /// What went wrong; never silenced.
    static void fault(const std::string& line);
};

}  // namespace fogproof::cli
