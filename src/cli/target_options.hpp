// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the print is meant to look like: the options of a target.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <utility>
#include <vector>

#include "fogproof/choose/wanted.hpp"
#include "fogproof/render/small_negative.hpp"

namespace fogproof::cli {

struct TargetOptions {
    std::vector<std::string> places, minded;
    std::string match;

    void add_to(CLI::App&);
    /// The target and its words.
    [[nodiscard]] std::pair<Wanted, std::string> wanted(const Easel&, const Scan&,
                                                        const SmallNegative&) const;
};

}  // namespace fogproof::cli
