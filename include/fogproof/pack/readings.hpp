// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Measured patches of strips, as they stand in a readings file: CSV (RFC 4180), lines from '#' on are
// comments, columns by name in any order, only `density` required. A line of column names may come again;
// the rows below it follow it.
#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// One measured patch. What the file leaves empty stays empty here and means the pack's nominal value. The
/// ranges are those that a file is held to.
struct Reading {
    std::string strip;                      ///< one piece of paper through one treatment
    std::optional<double> wedge_density;    ///< D, -0.1 to 6, of what lay over the patch
    std::optional<double> exposure_s;       ///< 0 (unexposed) to 36000
    std::optional<double> filter;           ///< by its grade, -1 (00) to 6
    std::optional<double> restrainer_ml_l;  ///< 0 to 500
    std::optional<double> develop_s;        ///< 0 (only fixed) to 1800
    double bleach_s = 0;                    ///< 0 to 7200
    std::optional<double> bleach_parts;     ///< N of 1+N, 0 to 1000
    double redevelop_s = 0;                 ///< 0 to 1800
    double density = 0;                     ///< D, -0.05 to 4: the visual reflection density read
    int line = 0;                           ///< of the text it came from
    /// What is known of how the reading may err, standard deviations in D. By itself; as all readings of its
    /// instrument do, by one density; as they do the more the darker a patch is (stray light, scale), told
    /// for this density. 0 to 1, the last to 2.
    std::optional<double> density_error{}, common_error{}, dark_error{};
    std::string instrument{};  ///< whose readings share the last two
    /// D, 0 to 2, of the film that lay in the carrier; 0: empty. Nothing: as at the pack's anchor.
    std::optional<double> carrier_density{};
    /// Callier factor, 1 to 2, by which wedge_density was reckoned from a negative in the carrier. Nothing: a
    /// wedge that lay on the paper.
    std::optional<double> callier{};
    friend bool operator==(const Reading&, const Reading&) = default;
};

/// Empty cells hold what `usual` says. Throws Error(Fault::data): one line "PLACE:LINE: found; allowed" for
/// every bad row, and where rows stand twice.
[[nodiscard]] std::vector<Reading> parse_readings(std::string_view text, const std::string& place,
                                                  const Reading& usual = {});
/// Throws Error(Fault::no_input) when the file cannot be read and otherwise as parse_readings does.
[[nodiscard]] std::vector<Reading> read_readings_file(const std::filesystem::path&);
/// The text of a readings file, with a comment line of its origin; parse_readings gives the rows back.
[[nodiscard]] std::string readings_text(std::span<const Reading>, const std::string& origin);
/// The first readings with the second behind them, as one text; a line of column names comes again where the
/// second need columns that the first do not have.
[[nodiscard]] std::string joined_readings(std::string_view first, std::span<const Reading> second,
                                          const std::string& origin);
/// Rows and where they come from.
struct OriginalRows {
    std::string origin;
    std::vector<Reading> rows;
};
/// Adds whole rows at the end of a readings file, under a lock, each set after a comment line of its origin;
/// makes the file if there is none. All of them are there or none. Rows already there stay as they are and
/// must be readable. Throws Error(Fault::data) where a row is there already or the file would grow beyond
/// what parse_readings takes.
void append_readings(const std::filesystem::path&, std::span<const OriginalRows>);

}  // namespace fogproof::pack
