// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which pack, and under which enlarger: the options that every command making prints shares.
#pragma once

#include <CLI/CLI.hpp>
#include <limits>
#include <optional>
#include <string>

#include "base/remarks.hpp"
#include "cli/command_line.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "picture/picture_options.hpp"

namespace fogproof::cli {

struct PackOptions {
    std::string path, black_time, carrier, head, light;
    std::optional<double> callier, flare, magnification, f_number, reciprocity;
    CommandLine line;

    void add_to(CLI::App&);
    /// The pack from its file with the enlarger of the command line. A pack without seconds of its own is
    /// anchored by --black-time if that is given; one that has them keeps them, and the remarks say how far
    /// off they are. --carrier says what the black time or else the pack's seconds were measured through.
    struct Taken {
        Pack pack;
        Remarks remarks;
    };
    [[nodiscard]] Taken taken() const;
    [[nodiscard]] Pack pack() const { return taken().pack; }
    /// What a picture made with it says about it.
    [[nodiscard]] Description label(const Pack&) const;
};

/// An agent of restrainer, a head by its word; Error(Fault::usage) otherwise.
[[nodiscard]] RestrainerAgent agent_in(const std::string& word, const std::string& place);
[[nodiscard]] Head head_in(const std::string& word, const std::string& place);

}  // namespace fogproof::cli
