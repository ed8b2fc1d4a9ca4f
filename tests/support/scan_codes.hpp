// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The codes of a scan as every user of its pixels gets them.
#pragma once

#include <algorithm>
#include <vector>

#include "scan/scan.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

/// Of what is printed, row by row.
inline std::vector<std::uint16_t> codes_of(const Scan& scan) {
    constexpr int kBand = 64;
    const auto source = scan.pixels();
    const auto reader = source->reader();
    std::vector<std::uint16_t> codes;
    for (int top = 0; top < source->height(); top += kBand) {
        const int count = std::min(kBand, source->height() - top);
        const CodeBand band = reader->lines(top, count);
        for (int line = 0; line < count; ++line)
            for (int x = 0; x < source->width(); ++x)
                codes.push_back(source->codes() == 256 ? band.line<std::uint8_t>(line)[x]
                                                       : band.line<std::uint16_t>(line)[x]);
    }
    return codes;
}

}  // namespace fogproof::tests
