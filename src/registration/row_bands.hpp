// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Rows of a picture that have nothing to do with each other, spread over the processors.
#pragma once

#include <algorithm>
#include <cstddef>

#include "fogproof/rooms.hpp"
#include "system/threads.hpp"

namespace fogproof::registration {

/// work(first, last) for bands of rows, last not included.
template <class Work>
void in_row_bands(int rows, const Work& work) {
    constexpr int kBand = 16;
    const int bands = (rows + kBand - 1) / kBand;
    in_parallel(std::size_t(bands), [&](std::size_t band) {
        const int first = int(band) * kBand;
        work(first, std::min(rows, first + kBand));
    });
}

}  // namespace fogproof::registration
