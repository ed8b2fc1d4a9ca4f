// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// `read PRINT --negative NEG`: prints held against the negative they were made of.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "cli/console.hpp"
#include "cli/negative_options.hpp"
#include "cli/strip_options.hpp"
#include "fogproof/rooms.hpp"
#include "reading/print_reading.hpp"

namespace fogproof::cli {

struct PrintOfNegativeOptions {
    std::string negative, negative_encoding, head, handwork;
    std::vector<std::string> tie;
    std::optional<double> callier, flare;
    NegativeOptions film;
    CommandLine line{};

    void add_to(CLI::App&);
    /// Throws Error(Fault::usage) for typed options that say something of a negative where none is given.
    void refuse_without_negative() const;
};

/// What `read` is asked in either of its forms.
struct ReadRequest {
    std::vector<std::string> inputs;
    std::string output, picture, encoding, labels, labels_out, sheet;
    double max_pixels = kUsualMaxPixels;
    bool json = false, force = false;
    StripOptions strips;
    PrintOfNegativeOptions print;
    CommandLine line{};
};

/// What its strips are called where nobody names them: as the file; of several files of one name as the
/// folder and the file, since one name is one sheet to the fit.
[[nodiscard]] std::string usual_name(const ReadRequest&, const std::filesystem::path&);

/// The picture of one input: NAME.png, or NAME-1.png, NAME-2.png when there are several.
[[nodiscard]] std::filesystem::path picture_of(const ReadRequest&, std::size_t input);

/// One input that is a picture; a note says where the settings decided how its codes are read.
[[nodiscard]] ReflectionImage paper_scan(const ReadRequest&, const std::string& path, Notes&);

void read_prints(const ReadRequest&, const Console&);

/// A print among other things on a scan: its rows under these labels, and what was read.
struct PieceOfScan {
    const std::string& path;  ///< of the scan
    const ReflectionImage& image;
    const StripRequest& request;
    int piece;
    std::string negative;  ///< its file
};
[[nodiscard]] std::pair<PrintReading, std::vector<Reading>> print_piece(const PrintOfNegativeOptions&,
                                                                        const PieceOfScan&, StripLabels,
                                                                        const Console&);

/// Adds the slip of a scan that is known as fixed only, unless the readings file or the scans before this one
/// hold it already.
void add_known_slip(std::vector<Reading>& rows, std::span<const KnownPatch>, const std::string& scan,
                    const std::string& output, std::span<const Reading> before);

}  // namespace fogproof::cli
