// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A print as a TIFF: every pixel of a scan looked up, by several workers at once where the scan can be read
// so.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "negative/tones.hpp"
#include "pixels/code_source.hpp"
#include "pixels/local_painter.hpp"
#include "pixels/pace.hpp"
#include "pixels/packed_table.hpp"
#include "pixels/print_border.hpp"

namespace fogproof::pixels {

struct StripPrint {
    std::string name;  ///< by which faults call it
    PackedTable table;
    PrintBorder border{};  ///< around the picture, its samples as the table has them
    double pixels_per_mm = 1;
    std::vector<std::uint8_t> icc{};
    std::string xmp{};
    bool compress = false;                        ///< deflate, with differences
    bool checksums = false;                       ///< for require_as_written
    std::shared_ptr<const LocalPainter> local{};  ///< draws instead of the table, where it is given
};

/// Sums over the pixels that were written, in a fixed order.
struct WrittenPrint {
    std::string name;
    std::vector<int> edges;                ///< lines at which bands begin, and the height
    std::vector<std::uint32_t> checksums;  ///< CRC-32 of each band's pixels
};

/// Bytes that the pixels will take, for an uncompressed print.
[[nodiscard]] std::uint64_t pixel_bytes(const CodeSource&, const StripPrint&);

/// Writes the print into an open, empty file; the bytes are the same at any pace. `expected`, when given, is
/// how often each entry was counted. Throws Error(Fault::data) when the scan cannot be read
/// or has changed, Error(Fault::io) when the print cannot be written.
WrittenPrint print_strips(const CodeSource&, const StripPrint&, int file, const Histogram* expected,
                          Pace = {});

/// Reads a print again and compares. Throws Error(Fault::io).
void require_as_written(const WrittenPrint&, const std::filesystem::path& file, Pace = {});

}  // namespace fogproof::pixels
