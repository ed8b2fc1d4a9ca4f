// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From the samples of a scan, whatever they are, to one channel of codes with a known light for each.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/code_lines.hpp"
#include "scan/log_coded.hpp"
#include "scan/scan.hpp"
#include "scan/scan_file.hpp"

namespace fogproof::scan {

/// Linear light of every code of red, green and blue, full scale 1; empty where channels have none of their
/// own.
using ChannelLight = std::array<std::vector<double>, 3>;

/// How the channel is made. Grey integer scans keep their own codes, so that nothing is lost; anything else
/// is brought to light and cut to the 16-bit coding of light_of_log_codes.
struct ScanChannel {
    int bands = 1;              ///< samples that count: the first 1 or 3 of a pixel
    LineLight to_light;         ///< empty: the codes are the scan's own
    std::vector<double> light;  ///< of every code
    ChannelLight bands_light{};
    CodingSource source = CodingSource::guess;  ///< who says what the codes stand for

    /// One band of 8 or 16 bit codes out of the file's pixels; lazily evaluated.
    [[nodiscard]] vips::VImage codes(const vips::VImage& pixels) const;
    /// The same for the reader of lines: `samples` a pixel of the file, 8 or 16 bits each.
    [[nodiscard]] CodeLaw code_law(int samples, int bits) const;
};

/// What was scanned, for the words about its light.
enum class Medium { film, paper };

/// Reads how the file codes light: by the encoding asked for, else by what the file says (its cICP chunk,
/// its profile, other chunks and tags), else as usual for its depth. Throws Error(data) for samples that are
/// neither grey nor RGB, or of a type that is not supported.
[[nodiscard]] ScanChannel channel_of(const ScanFile&, std::optional<Encoding>, Notes&, Medium = Medium::film);

/// The same channel with these shares of red, green and blue, where it tells them apart.
[[nodiscard]] ScanChannel weighted(const ScanFile&, ScanChannel, const std::array<double, 3>& shares);

}  // namespace fogproof::scan
