// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Means of something that every entry stands for, over areas of a scan.
#pragma once

#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/code_source.hpp"
#include "scan/scan.hpp"

namespace fogproof::scan {

struct PictureSize {
    int width = 0, height = 0;
};

/// The size at which the longer side of what is printed has `long_side` pixels, or its own number if smaller.
[[nodiscard]] PictureSize reduced_size(const Scan&, int long_side);
/// What is averaged: `values`, one for each entry, over areas that make a picture of that size.
struct AreaValues {
    std::span<const double> values;
    PictureSize size;
};

/// Row by row the mean over each area of a scan's pixels, cut at exact fractions, of each of several values.
/// One pass over the pixels.
[[nodiscard]] std::vector<std::vector<double>> area_means(const CodeSource&, std::span<const AreaValues>);

}  // namespace fogproof::scan
