// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which pack, and under which enlarger: the options that every command making prints shares.
#pragma once

#include <CLI/CLI.hpp>
#include <limits>
#include <optional>
#include <string>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "picture/picture_options.hpp"

namespace fogproof::cli {

struct PackOptions {
    std::string path, black_time, carrier, head;
    std::optional<double> callier, flare, magnification, f_number, reciprocity;

    void add_to(CLI::App&);
    /// The pack from its file with the enlarger of the command line, anchored by --black-time if that is
    /// given; --carrier says what either was measured through.
    [[nodiscard]] Pack pack() const;
    /// What a picture made with it says about it.
    [[nodiscard]] Description label(const Pack&) const;
};

/// An agent of restrainer, a head by its word; Error(Fault::usage) otherwise.
[[nodiscard]] RestrainerAgent agent_in(const std::string& word, const std::string& place);
[[nodiscard]] Head head_in(const std::string& word, const std::string& place);

}  // namespace fogproof::cli
