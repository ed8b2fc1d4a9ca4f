// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the print is meant to look like: the options of a target.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

#include "choose/wanted.hpp"
#include "fogproof/rooms.hpp"
#include "scan/small_negative.hpp"

namespace fogproof::cli {

/// A target, its words, what is doubtful about it, and how a picture that it comes from was taken.
struct AskedTarget {
    Wanted wanted;
    std::string words;
    std::vector<std::string> warnings{};
    Notes picture_notes{};
};

struct TargetOptions {
    std::vector<std::string> places, minded;
    std::string match, match_encoding, fresh;

    void add_to(CLI::App&);
    /// The grade of fresh paper that is asked for.
    [[nodiscard]] std::optional<double> fresh_grade() const;
    [[nodiscard]] AskedTarget wanted(const Printing&, const Scan&, const SmallNegative&) const;
};

}  // namespace fogproof::cli
