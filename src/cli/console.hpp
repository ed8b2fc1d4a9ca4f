// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a command says: its answer on standard output; notes, warnings and cautions on stderr, one line each.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/remarks.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::cli {

struct Console {
    bool quiet = false, verbose = false;

    /// Guesses taken and other things worth knowing; silent with --quiet.
    void notes(const std::vector<std::string>& lines, const std::string& place = {}) const;
    /// What may make the answer wrong; never silenced.
    static void warnings(const std::vector<std::string>& lines, const std::string& place = {});
    /// What can hurt somebody; never silenced.
    static void cautions(const std::vector<std::string>& lines, const std::string& place = {});
    /// Notes, then warnings.
    void remarks(const Remarks&, const std::string& place) const;
    /// Only with --verbose.
    void detail(const std::string& line) const;
    /// What was asked for.
    static void answer(std::string_view text);
    /// What went wrong; never silenced.
    static void fault(const std::string& line);
};

}  // namespace fogproof::cli
