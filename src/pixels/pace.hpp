// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How a pass over a scan is spread over workers.
#pragma once

#include <cstddef>

#include "fogproof/rooms.hpp"

namespace fogproof::pixels {

/// What comes of a pass is the same to the last bit for any number of threads.
struct Pace {
    unsigned threads = 0;                 ///< 0: one for each processor
    std::size_t band_bytes = 256 * 1024;  ///< of the scan that a worker takes at a time, about
};

}  // namespace fogproof::pixels
