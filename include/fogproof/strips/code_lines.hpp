// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A part of a TIFF as lines of codes, one a pixel.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <vector>

#include "fogproof/base/region.hpp"
#include "fogproof/strips/tiff_scan.hpp"

namespace fogproof {

/// Turns the samples of some pixels into 16-bit codes. Called by several workers at once.
using CodeLaw = std::function<void(const void* samples, std::uint16_t* codes, std::size_t pixels)>;

struct CodeLines {
    TiffScan scan;
    Region region;        ///< of the picture as stored
    bool mirror = false;  ///< right to left
    CodeLaw law{};        ///< absent: the first sample of each pixel is its code

    [[nodiscard]] std::size_t codes() const { return law || scan.facts().bits == 16 ? 65536 : 256; }
};

}  // namespace fogproof
