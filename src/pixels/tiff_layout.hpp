// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Where the pixels of an opened TIFF lie, and how they are coded.
#pragma once

#include <sys/stat.h>

#include <cstddef>
#include <memory>
#include <string>

#include "fogproof/rooms.hpp"
#include "pixels/kept_lines.hpp"
#include "pixels/tiff_scan.hpp"

namespace fogproof::pixels {

struct TiffScan::Layout {
    std::filesystem::path path;
    struct stat opened {};  ///< what the system says of the file
    TiffFacts facts;
    bool is_tiled = false, is_plain = false;  ///< plain: not compressed
    bool is_swapped = false;                  ///< bytes of plain samples, against this machine
    bool is_white_low = false;                ///< code 0 stands for white
    unsigned planes = 1;                      ///< of which the first is read
    int unit_width = 0, unit_height = 0;      ///< of a tile, or of a strip as wide as the picture
    std::vector<std::uint64_t> offsets;       ///< of plain units, row by row
    std::uint64_t end = 0;                    ///< behind the last byte of them all
    std::shared_ptr<KeptLines> kept;          ///< where a coded picture's lines are kept

    [[nodiscard]] std::size_t pixel_bytes() const {
        return std::size_t(facts.samples) * std::size_t(facts.bits / 8);
    }
    [[nodiscard]] std::size_t line_bytes() const { return std::size_t(facts.width) * pixel_bytes(); }
    [[nodiscard]] int units_across() const { return (facts.width + unit_width - 1) / unit_width; }
};

}  // namespace fogproof::pixels
