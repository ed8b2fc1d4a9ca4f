// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the printer tells about strips: how to find their steps, and what was done to each.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "reading/strip_labels.hpp"

namespace fogproof::cli {

struct StripOptions {
    std::string white, dark, frame, wedge, exposures, bleached_half;
    std::vector<std::string> known;
    int steps = 0;
    bool halves = false, leave_out = false;
    // One value for all strips, or one for each in the order they are found.
    std::vector<std::string> names, filter, carrier;
    std::vector<double> exposure, restrainer, develop, bleach, parts, redevelop;

    void add_to(CLI::App&);
    /// How the strips of one scan are to be found. Throws Error(Fault::usage) for options that contradict
    /// each other.
    [[nodiscard]] StripRequest request(const std::string& place) const;
    /// The labels of one strip out of `count`; `usual` is its name when none was told. What is typed counts
    /// before what a labels file says.
    [[nodiscard]] StripLabels labels(std::size_t strip, std::size_t count, const std::string& usual) const;
    [[nodiscard]] StripLabels labels(std::size_t strip, std::size_t count, const std::string& usual,
                                     const StripLabels& filed) const;
    /// What a labels file says of the print that the scan is of.
    StripLabels filed{};
};

}  // namespace fogproof::cli
