// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A picture cut into bands: the same for any number of workers, so that what they make of it is the same.
#pragma once

#include <cstddef>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/code_source.hpp"

namespace fogproof::pixels {

/// Lines at which bands of the picture begin, and its height as the last entry: whole strips or rows of tiles
/// where they must be decoded together, of about so many bytes.
[[nodiscard]] std::vector<int> band_edges(const CodeSource&, std::size_t band_bytes);

}  // namespace fogproof::pixels
