// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How a scan is to be read: the options that every command taking negatives shares.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "cli/command_line.hpp"
#include "fogproof/rooms.hpp"
#include "scan/scan.hpp"

namespace fogproof::cli {

struct NegativeOptions {
    std::string encoding, kind, channels, frame, clear, black;
    std::optional<double> base_fog, film_slope, film_range;
    bool whole = false, keep_askew = false, mirror = false, clear_edge = false;
    double max_pixels = kUsualMaxPixels;
    const char* encoding_option = "--encoding";  ///< by which its encoding is asked for
    CommandLine line{};

    void add_to(CLI::App&);
    [[nodiscard]] ScanOptions scan_options() const;
    /// Throws Error(Fault::usage) for any of them that is typed where no negative is.
    void refuse_without_negative() const;
};

/// Throws Error(Fault::usage) for an option that says something of a negative.
[[noreturn]] void refuse_as_of_no_negative(const std::string& option);
/// A limit asked for with --max-pixels; Error(Fault::usage) when it is none.
[[nodiscard]] double pixel_limit(double asked);
/// An encoding by its word; nothing for an empty text.
[[nodiscard]] std::optional<Encoding> encoding_in(const std::string& text, const std::string& place);
/// "LEFT,TOP,WIDTH,HEIGHT"; Error(Fault::usage) otherwise.
[[nodiscard]] Region region_in(const std::string& text, const std::string& place);

}  // namespace fogproof::cli
